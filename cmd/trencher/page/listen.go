//go:build !js

package page

import (
	"cmp"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"sync"
)

// Listening is the page's port on each address of this machine where it may be
// reached. It is a net.Listener.
type Listening struct {
	// Refused are this machine's own addresses on which nobody is let in,
	// because they are none of a home network.
	Refused []netip.Addr

	at      []net.Listener
	callers chan caller
	closed  chan struct{}
	close   sync.Once
	crowd   crowd
}

// caller is a connection, or why there is none.
type caller struct {
	conn net.Conn
	err  error
}

// portTries is how often a free port is looked for that is free on every
// address.
const portTries = 20

// Listen takes the port: on this machine alone, or with phone on each address
// that it has on a home network. Port 0 takes a free one.
func Listen(port int, phone bool) (*Listening, error) {
	if port < 0 || port > 65535 {
		return nil, fmt.Errorf("--port %d: a port is a number from 1 to 65535, or 0 for any free one", port)
	}
	addresses := []netip.Addr{netip.AddrFrom4([4]byte{127, 0, 0, 1})}
	var refused []netip.Addr
	if phone {
		var home []netip.Addr
		home, refused = sortOut(ownAddresses())
		slices.SortStableFunc(home, likelierFirst(outwardAddress()))
		addresses = append(addresses, home...)
	}
	l, err := listenAt(port, addresses)
	for range portTries {
		if err == nil || port != 0 {
			break
		}
		l, err = listenAt(port, addresses)
	}
	if err != nil {
		return nil, fmt.Errorf("--port %d cannot be opened; choose another, or 0 for any free one: %w", port, err)
	}
	l.Refused = refused
	return l, nil
}

// listenAt takes one port at all of these addresses.
func listenAt(port int, addresses []netip.Addr) (*Listening, error) {
	l := &Listening{callers: make(chan caller), closed: make(chan struct{})}
	for _, address := range addresses {
		one, err := net.Listen("tcp", netip.AddrPortFrom(address, uint16(port)).String())
		if err != nil {
			l.Close()
			return nil, err
		}
		l.at = append(l.at, one)
		port = l.Port()
	}
	for _, one := range l.at {
		go l.take(one)
	}
	return l, nil
}

// ownAddresses are this machine's addresses on its networks.
func ownAddresses() (own []netip.Addr) {
	found, err := net.InterfaceAddrs()
	if err != nil {
		return nil // there is still this machine itself
	}
	for _, one := range found {
		network, ok := one.(*net.IPNet)
		if !ok {
			continue
		}
		if address, ok := netip.AddrFromSlice(network.IP); ok && !address.IsLoopback() {
			own = append(own, address.Unmap())
		}
	}
	return own
}

// outwardAddress is the address from which this machine reaches other networks;
// the zero one where it reaches none. To find it, nothing is sent.
func outwardAddress() netip.Addr {
	conn, err := net.Dial("udp", "192.0.2.1:9") // an address of nobody (RFC 5737)
	if err != nil {
		return netip.Addr{}
	}
	defer conn.Close()
	return conn.LocalAddr().(*net.UDPAddr).AddrPort().Addr().Unmap()
}

// likelierFirst puts the address a phone most likely shares a network with first:
// the outward one, then those of IPv4.
func likelierFirst(outward netip.Addr) func(a, b netip.Addr) int {
	rank := func(a netip.Addr) int {
		switch {
		case a == outward:
			return 0
		case a.Is4():
			return 1
		}
		return 2
	}
	return func(a, b netip.Addr) int { return cmp.Compare(rank(a), rank(b)) }
}

// sortOut tells the addresses of a home network from all others. Link-local ones
// of IPv6 are left out of both: an address with a zone is none a browser opens.
func sortOut(own []netip.Addr) (home, refused []netip.Addr) {
	for _, address := range own {
		switch {
		case address.Is6() && address.IsLinkLocalUnicast():
		case isAtHome(address):
			home = append(home, address)
		default:
			refused = append(refused, address)
		}
	}
	return home, refused
}

// take takes in those who call at one address.
func (l *Listening) take(at net.Listener) {
	for {
		conn, err := at.Accept()
		if err == nil {
			if conn = l.crowd.let(conn); conn == nil {
				continue
			}
		}
		select {
		case l.callers <- caller{conn, err}:
		case <-l.closed:
			if conn != nil {
				conn.Close()
			}
			return
		}
		if err != nil && !isPassing(err) {
			return
		}
	}
}

// isPassing tells an error of Accept after which others are still taken in.
func isPassing(err error) bool {
	temporary, ok := err.(interface{ Temporary() bool })
	return ok && temporary.Temporary()
}

// Accept waits for the next who calls.
func (l *Listening) Accept() (net.Conn, error) {
	select {
	case one := <-l.callers:
		return one.conn, one.err
	case <-l.closed:
		return nil, net.ErrClosed
	}
}

// Close ends the listening everywhere.
func (l *Listening) Close() (err error) {
	l.close.Do(func() {
		close(l.closed)
		for _, one := range l.at {
			if failed := one.Close(); failed != nil {
				err = failed
			}
		}
	})
	return err
}

// Addr is where this machine itself reaches the page.
func (l *Listening) Addr() net.Addr { return l.at[0].Addr() }

// Port is the port that was taken.
func (l *Listening) Port() int { return l.Addr().(*net.TCPAddr).Port }

// Addresses lists where the page is reached, this machine's own first.
func (l *Listening) Addresses() (list []string) {
	for _, one := range l.at {
		list = append(list, "http://"+one.Addr().String()+"/")
	}
	return list
}

// mostConnections is how many connections one address may hold at a time; a
// browser opens about six.
const mostConnections = 24

// crowd bounds the connections of each address, so that one machine cannot take
// all there are. This machine's own are not counted.
type crowd struct {
	mu   sync.Mutex
	from map[netip.Addr]int
}

// let lets a connection in, or closes it and returns nil.
func (c *crowd) let(conn net.Conn) net.Conn {
	at, err := netip.ParseAddrPort(conn.RemoteAddr().String())
	if err != nil {
		conn.Close()
		return nil
	}
	address := at.Addr().Unmap()
	if address.IsLoopback() {
		return conn
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.from[address] >= mostConnections {
		conn.Close()
		return nil
	}
	if c.from == nil {
		c.from = map[netip.Addr]int{}
	}
	c.from[address]++
	return &counted{Conn: conn, leave: sync.OnceFunc(func() { c.leave(address) })}
}

func (c *crowd) leave(address netip.Addr) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.from[address]--; c.from[address] == 0 {
		delete(c.from, address)
	}
}

// counted is a connection that is counted until it is closed.
type counted struct {
	net.Conn
	leave func()
}

// Close ends the connection.
func (c *counted) Close() error {
	c.leave()
	return c.Conn.Close()
}
