package page

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestListenStaysOnThisMachine(t *testing.T) {
	listener, err := Listen(0, false)
	require.NoError(t, err)
	defer listener.Close()
	assert.True(t, listener.Addr().(*net.TCPAddr).IP.IsLoopback())
	_, err = Listen(listener.Port(), false)
	assert.ErrorContains(t, err, "choose another", "a port that is taken")

}

// With --phone the page listens on this machine's addresses of a home network,
// one by one, and on no other.
func TestListenForPhonesStaysAtHome(t *testing.T) {
	l, err := Listen(0, true)
	require.NoError(t, err)
	defer l.Close()
	assert.True(t, strings.HasPrefix(l.Addresses()[0], "http://127.0.0.1:"))
	for _, address := range l.Addresses() {
		at, err := url.Parse(address)
		require.NoError(t, err)
		assert.Equal(t, strconv.Itoa(l.Port()), at.Port())
		ip, err := netip.ParseAddr(at.Hostname())
		require.NoError(t, err)
		assert.False(t, ip.IsUnspecified(), "not everywhere")
		assert.True(t, isAtHome(ip), address)
		conn, err := net.Dial("tcp", at.Host)
		require.NoError(t, err, "it is reached there")
		got, err := l.Accept()
		require.NoError(t, err)
		assert.Equal(t, conn.LocalAddr().String(), got.RemoteAddr().String())
		conn.Close()
		got.Close()
	}
	require.NoError(t, l.Close())
	_, err = l.Accept()
	assert.ErrorIs(t, err, net.ErrClosed)
}

// The edges of the blocks of RFC 1918, RFC 4193, RFC 3927 and RFC 4291; all else is
// refused, carriers' shared addresses (RFC 6598) too.
func TestSortOutAddresses(t *testing.T) {
	var all, home, refused []netip.Addr
	for text, at := range map[string]*[]netip.Addr{
		"10.0.0.0": &home, "10.255.255.255": &home, "172.16.0.0": &home, "172.31.255.255": &home, "192.168.0.0": &home, "192.168.255.255": &home,
		"169.254.0.1": &home, "fc00::1": &home, "fdff::1": &home, "127.0.0.1": &home,
		"9.255.255.255": &refused, "11.0.0.0": &refused, "172.15.255.255": &refused, "172.32.0.0": &refused, "192.167.255.255": &refused, "192.169.0.0": &refused,
		"100.64.0.1": &refused, "203.0.113.7": &refused, "2001:db8::1": &refused, "fe00::1": &refused, "fec0::1": &refused, "0.0.0.0": &refused,
	} {
		address := netip.MustParseAddr(text)
		all, *at = append(all, address), append(*at, address)
	}
	gotHome, gotRefused := sortOut(append(all, netip.MustParseAddr("fe80::1")))
	assert.ElementsMatch(t, home, gotHome)
	assert.ElementsMatch(t, refused, gotRefused)
	order := likelierFirst(netip.MustParseAddr("192.168.1.20"))
	assert.Negative(t, order(netip.MustParseAddr("192.168.1.20"), netip.MustParseAddr("10.0.0.1")))
	assert.Negative(t, order(netip.MustParseAddr("172.17.0.1"), netip.MustParseAddr("fd00::1")))
}

// heldConn is a connection from an address.
type heldConn struct {
	net.Conn
	from string
	shut bool
}

func (c *heldConn) RemoteAddr() net.Addr {
	return net.TCPAddrFromAddrPort(netip.MustParseAddrPort(c.from))
}

func (c *heldConn) Close() error { c.shut = true; return nil }

// One address cannot take all connections there are; what it closes is free again.
func TestCrowdBoundsEachAddress(t *testing.T) {
	var c crowd
	var first net.Conn
	for n := range mostConnections {
		got := c.let(&heldConn{from: fmt.Sprintf("192.168.1.66:%d", 1000+n)})
		require.NotNil(t, got)
		if n == 0 {
			first = got
		}
	}
	more := &heldConn{from: "192.168.1.66:9999"}
	assert.Nil(t, c.let(more))
	assert.True(t, more.shut)
	assert.NotNil(t, c.let(&heldConn{from: "192.168.1.7:1"}), "nobody else waits for it")
	for range 2 { // closed twice, as servers do, it is counted once
		require.NoError(t, first.Close())
	}
	assert.NotNil(t, c.let(&heldConn{from: "192.168.1.66:9999"}))
	assert.Nil(t, c.let(&heldConn{from: "192.168.1.66:9998"}))
}

func TestServerBoundsItsClients(t *testing.T) {
	server := newPage(t, Options{}).server()
	for _, limit := range []time.Duration{server.ReadHeaderTimeout, server.ReadTimeout, server.WriteTimeout, server.IdleTimeout} {
		assert.NotZero(t, limit)
	}
	address, _ := startPage(t)
	asked, err := http.NewRequest("GET", address, nil)
	require.NoError(t, err)
	asked.Header.Set("X-Long", strings.Repeat("x", 2*maxHeader))
	answer, err := http.DefaultClient.Do(asked)
	require.NoError(t, err)
	answer.Body.Close()
	assert.Equal(t, http.StatusRequestHeaderFieldsTooLarge, answer.StatusCode)
}

// A client that never ends its headers is cut off; it takes the time limit to
// see it.
func TestServerCutsSlowClientsOff(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") != "1" {
		t.Skip("TRENCHER_LONG=1 waits for the time limit")
	}
	address, _ := startPage(t)
	connection, err := net.Dial("tcp", strings.TrimPrefix(address, "http://"))
	require.NoError(t, err)
	defer connection.Close()
	_, err = io.WriteString(connection, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n")
	require.NoError(t, err)
	require.NoError(t, connection.SetReadDeadline(time.Now().Add(HeaderTimeout+10*time.Second)))
	_, err = io.ReadAll(connection)
	assert.NoError(t, err, "the server closes; the test does not give up")
}
