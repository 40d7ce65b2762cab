package serve

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLimiterMemoryIsBounded(t *testing.T) {
	l := newCallers(newLimiter(Rate{PerSecond: 1, Burst: 100}), newStores())
	steady := l.named("steady")
	for i := range 10 * mostCallers {
		l.named(fmt.Sprint(i))
		if i%1000 == 0 {
			assert.Same(t, steady, l.named("steady"), "who goes on asking is not forgotten")
		}
	}
	assert.LessOrEqual(t, len(l.young)+len(l.old), 2*mostCallers)
}

func TestNetworkOfAnAddress(t *testing.T) {
	for address, want := range map[string]string{
		"192.0.2.7": "192.0.2.7", "2001:db8:1:2:3:4:5:6": "2001:db8:1:2::/64", "2001:db8:1:2::9": "2001:db8:1:2::/64",
		"2001:db8:1:3::9": "2001:db8:1:3::/64", "fe80::1%eth0": "fe80::/64", "::ffff:192.0.2.7": "::ffff:192.0.2.7", "": "", "pipe": "pipe",
	} {
		assert.Equal(t, want, network(address), address)
	}
}
