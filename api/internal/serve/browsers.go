package serve

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/refuse"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// door keeps out what a browser is led to send by a page of somebody else, and what
// came by a way that nobody vouched for.
type door struct {
	cross   *http.CrossOriginProtection // no calculation for pages of other origins
	hosts   []string                    // by which the service may be called; nil: any
	proxied bool                        // requests that came through a proxy are let in
}

// newDoor lets pages of the origins ask, and no others.
func newDoor(hosts, origins []string, proxied bool) *door {
	d := &door{cross: http.NewCrossOriginProtection(), hosts: hosts, proxied: proxied}
	for _, origin := range origins {
		// What cannot be such an origin is none that a browser sends.
		_ = d.cross.AddTrustedOrigin(origin)
	}
	return d
}

// check says why a request is not let in; nil if it is.
func (d *door) check(request *http.Request) *refuse.Problem {
	if d.hosts != nil && !slices.Contains(d.hosts, hostOf(request.Host)) {
		return refuse.New(http.StatusMisdirectedRequest, "this service is not asked as "+wire.Quoted(request.Host)+"; whoever runs it names its hosts")
	}
	if !d.proxied && throughProxy(request.Header) {
		return refuse.New(http.StatusForbidden, "the request came through a proxy that this service was not told of; whoever runs it names the proxy and says who may ask")
	}
	if d.cross.Check(request) != nil {
		return refuse.New(http.StatusForbidden, "pages of other origins may not ask here; whoever runs this service names the origins that may")
	}
	return nil
}

// hostOf is the name or address in a Host header, without its port.
func hostOf(header string) string {
	host := header
	if name, _, err := net.SplitHostPort(header); err == nil {
		host = name
	}
	return strings.ToLower(strings.TrimSuffix(strings.TrimPrefix(host, "["), "]"))
}

// forwarding are the headers by which proxies tell of themselves.
var forwarding = []string{"Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-Ip", "Via"}

func throughProxy(header http.Header) bool {
	return slices.ContainsFunc(forwarding, func(name string) bool { _, is := header[name]; return is })
}

// LoopbackHosts are the names by which a machine calls itself.
var LoopbackHosts = []string{"localhost", "127.0.0.1", "::1"}

// ParseHosts reads a list of names or addresses, without a port, separated by commas.
func ParseHosts(list string) ([]string, error) {
	var hosts []string
	for one := range strings.SplitSeq(list, ",") {
		if one = strings.TrimSpace(one); one == "" {
			continue
		}
		u, err := url.Parse("http://" + one)
		if (err != nil || u.Host != one || u.Port() != "" || u.User != nil) && net.ParseIP(one) == nil {
			return nil, fmt.Errorf("a host is a name or an address without a port, such as wood.example or 192.0.2.7, not %q", one)
		}
		hosts = append(hosts, hostOf(one))
	}
	if len(hosts) == 0 {
		return nil, errors.New("the list of hosts is empty")
	}
	return hosts, nil
}

// strictTransport is sent over TLS (RFC 6797): a browser that came by https once does
// not come by http for a year. The names below this one are not ours to speak for.
var strictTransport = []string{"max-age=31536000"}

// jsonBody refuses a body that does not say that it is JSON: what says nothing, or is
// called plain text, a page of any origin may send without asking beforehand.
func jsonBody(c echo.Context) error {
	request := c.Request()
	given, media := request.Header.Get(echo.HeaderContentType), mediaOf(c)
	if given == "" && request.ContentLength == 0 {
		return nil
	}
	if media == echo.MIMEApplicationJSON {
		return inUTF8(c, media)
	}
	detail := "send the body as application/json, not " + wire.Clipped(media)
	if given == "" {
		detail = "send the body with Content-Type: application/json"
	}
	return refuse.Media(detail, echo.MIMEApplicationJSON)
}

// inUTF8 refuses a body that is said to be in another coding of characters than UTF-8, in which
// JSON is (RFC 8259): it would be misread.
func inUTF8(c echo.Context, media string) error {
	_, parameters, _ := strings.Cut(c.Request().Header.Get(echo.HeaderContentType), ";")
	for one := range strings.SplitSeq(parameters, ";") {
		name, value, _ := strings.Cut(one, "=")
		coding := strings.Trim(strings.TrimSpace(value), `"`)
		if strings.EqualFold(strings.TrimSpace(name), "charset") && !strings.EqualFold(coding, "utf-8") && !strings.EqualFold(coding, "utf8") {
			return refuse.Media("send the body in UTF-8, not in "+wire.Clipped(coding), media)
		}
	}
	return nil
}

// mediaOf is the media type that a body is said to be of, without its parameters.
func mediaOf(c echo.Context) string {
	media, _, _ := strings.Cut(c.Request().Header.Get(echo.HeaderContentType), ";")
	return strings.ToLower(strings.TrimSpace(media))
}

// plainBody refuses a body that is coded, such as compressed: it would be misread. The
// codings that are taken stand in Accept-Encoding (RFC 9110, 12.5.3).
func plainBody(c echo.Context) error {
	for _, line := range c.Request().Header.Values(echo.HeaderContentEncoding) {
		for coding := range strings.SplitSeq(line, ",") {
			if coding = strings.TrimSpace(coding); coding != "" && !strings.EqualFold(coding, plainCoding) {
				c.Response().Header().Set(echo.HeaderAcceptEncoding, plainCoding)
				p := refuse.Header(http.StatusUnsupportedMediaType, echo.HeaderContentEncoding, "not_a_choice", "send the body as it is, not with Content-Encoding: "+wire.Clipped(coding))
				p.Errors[0].Limit = method.OneOf(plainCoding)
				return p
			}
		}
	}
	return nil
}

const plainCoding = "identity"
