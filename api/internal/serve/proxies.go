package serve

import (
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
)

// Headers in which a proxy tells whom it asks for.
const (
	ForwardedFor = "X-Forwarded-For" // not standardised, and the usual one
	Forwarded    = "Forwarded"       // RFC 7239
)

// Proxies are those whose word on who asks is taken.
type Proxies struct {
	From   []netip.Prefix // where they ask from
	Header string         // ForwardedFor or Forwarded: the one that all of them set
}

// ParseProxies reads a list of addresses or networks, such as 127.0.0.1 or
// 192.0.2.0/24, separated by commas.
func ParseProxies(list string) ([]netip.Prefix, error) {
	var all []netip.Prefix
	for one := range strings.SplitSeq(list, ",") {
		if one = strings.TrimSpace(one); one == "" {
			continue
		}
		prefix, err := netip.ParsePrefix(one)
		if err != nil {
			address, wrong := netip.ParseAddr(one)
			if wrong != nil {
				return nil, fmt.Errorf("a proxy is an address or a network such as 192.0.2.0/24, not %q", one)
			}
			prefix = netip.PrefixFrom(address, address.BitLen())
		}
		all = append(all, prefix.Masked())
	}
	if len(all) == 0 {
		return nil, errors.New("the list of proxies is empty")
	}
	return all, nil
}

// known reports whether the address is that of a proxy.
func (p *Proxies) known(address netip.Addr) bool {
	return slices.ContainsFunc(p.From, func(prefix netip.Prefix) bool { return prefix.Contains(address) })
}

// addressOf is the address a request is asked from: that of the connection, or, where
// this is a proxy's, the nearest one that the proxies name and that is no proxy itself.
// What stands beyond that anybody may have written, and is not looked at.
func (p *Proxies) addressOf(request *http.Request) string {
	host, _, err := net.SplitHostPort(request.RemoteAddr)
	if err != nil {
		host = request.RemoteAddr
	}
	at, err := netip.ParseAddr(host)
	if err != nil || len(p.From) == 0 {
		return host
	}
	hops := p.hops(request.Header)
	for i := len(hops) - 1; i >= 0 && p.known(at.Unmap().WithZone("")); i-- {
		next, err := netip.ParseAddr(hops[i])
		if err != nil { // hidden or unknown: as far as is known, the proxy asks
			break
		}
		at = next
	}
	return at.Unmap().String()
}

// hops are the addresses that the header names, the nearest last.
func (p *Proxies) hops(header http.Header) []string {
	var hops []string
	for _, line := range header.Values(p.Header) {
		for hop := range strings.SplitSeq(line, ",") {
			if p.Header == Forwarded {
				hop = forOf(hop)
			}
			hops = append(hops, bareAddress(strings.TrimSpace(hop)))
		}
	}
	return hops
}

// forOf is the for parameter of an element of a Forwarded header (RFC 7239, 4).
func forOf(element string) string {
	for pair := range strings.SplitSeq(element, ";") {
		name, value, _ := strings.Cut(pair, "=")
		if strings.EqualFold(strings.TrimSpace(name), "for") {
			return strings.Trim(strings.TrimSpace(value), `"`)
		}
	}
	return ""
}

// bareAddress takes the port and the brackets off an address.
func bareAddress(text string) string {
	if host, _, err := net.SplitHostPort(text); err == nil {
		return host
	}
	return strings.TrimSuffix(strings.TrimPrefix(text, "["), "]")
}
