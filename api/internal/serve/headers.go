package serve

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"
)

// Header values that every reply shares. They are never changed in place.
var (
	noSniff     = []string{"nosniff"}
	noReferrer  = []string{"no-referrer"}
	varyAccept  = []string{"Accept, Accept-Encoding"}
	varyOrigin  = []string{"Accept, Accept-Encoding, Origin"}
	policyNone  = []string{"default-src 'none'; frame-ancestors 'none'"}
	policyFront = []string{"default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"}
	// policyWorker lets the service worker of the front page fetch the files of the page.
	policyWorker = []string{"default-src 'none'; connect-src 'self'; frame-ancestors 'none'"}
)

// contentPolicies are the Content-Security-Policy of the paths that are pages;
// all others may load nothing.
var contentPolicies = map[string][]string{"/": policyFront, "/worker.js": policyWorker, "/docs": policyDocs, "/docs/*": policyDocs,
	"/b/:id": policyFront, "/B/:id": policyFront, "/p/:id": policyFront, "/P/:id": policyFront}

// secure sets the headers that keep a browser from doing harm with a reply.
func secure(c echo.Context, header http.Header, origins []string) {
	header["X-Content-Type-Options"] = noSniff
	header["Referrer-Policy"] = noReferrer
	policy, isPage := contentPolicies[c.Path()]
	if !isPage {
		policy = policyNone
	}
	header["Content-Security-Policy"] = policy
	if c.Request().TLS != nil {
		header["Strict-Transport-Security"] = strictTransport
	}
	header["Vary"] = varyAccept
	if origins != nil {
		header["Vary"] = varyOrigin
	}
}

// ParseOrigins reads a list of origins, separated by commas, that pages of
// other hosts may ask from: https://shop.example or http://127.0.0.1:3000.
func ParseOrigins(list string) ([]string, error) {
	var origins []string
	for one := range strings.SplitSeq(list, ",") {
		if one = strings.TrimSpace(one); one == "" {
			continue
		}
		u, err := url.Parse(one)
		if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Scheme+"://"+strings.ToLower(u.Host) != one {
			return nil, fmt.Errorf("an origin is written as browsers send it, such as https://shop.example or http://127.0.0.1:3000, not %q", one)
		}
		origins = append(origins, one)
	}
	if len(origins) == 0 {
		return nil, errors.New("the list of origins is empty")
	}
	return origins, nil
}

// Values of the replies to other origins (Fetch standard, 3.2).
var (
	corsMethods = []string{"GET, HEAD, POST, QUERY"} // what is kept is never changed by a page of another origin
	corsHeaders = []string{"Accept, Authorization, Content-Type, If-None-Match, X-Request-Id"}
	corsExposed = []string{"Accept-Query, Deprecation, ETag, Link, RateLimit, RateLimit-Policy, Retry-After, Sunset, X-Request-Id"}
	corsMaxAge  = []string{"600"}
)

// crossOrigin lets pages of the named origins read the reply. It reports whether the
// request was the question a browser asks beforehand, which is then answered.
func crossOrigin(c echo.Context, header http.Header, origins []string) (answered bool) {
	if origins == nil {
		return false
	}
	origin := c.Request().Header.Get(echo.HeaderOrigin)
	if origin == "" || !slices.Contains(origins, origin) {
		return false
	}
	header["Access-Control-Allow-Origin"] = []string{origin}
	if c.Request().Method != http.MethodOptions || c.Request().Header.Get(echo.HeaderAccessControlRequestMethod) == "" {
		header["Access-Control-Expose-Headers"] = corsExposed
		return false
	}
	header["Access-Control-Allow-Methods"] = corsMethods
	header["Access-Control-Allow-Headers"] = corsHeaders
	header["Access-Control-Max-Age"] = corsMaxAge
	return true
}
