//go:build !js

package page

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"
)

// Listen takes the port: on this machine alone, or with phone on every
// address it has. Port 0 takes a free one.
func Listen(port int, phone bool) (net.Listener, error) {
	if port < 0 || port > 65535 {
		return nil, fmt.Errorf("--port %d: a port is a number from 1 to 65535, or 0 for any free one", port)
	}
	host := "127.0.0.1"
	if phone {
		host = ""
	}
	listener, err := net.Listen("tcp", net.JoinHostPort(host, fmt.Sprint(port)))
	if err != nil {
		return nil, fmt.Errorf("--port %d cannot be opened; choose another, or 0 for any free one: %w", port, err)
	}
	return listener, nil
}

// Serve answers requests until ctx ends, then lets the running ones finish.
func (p *Page) Serve(ctx context.Context, listener net.Listener) error {
	server := p.server()
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	closing, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	err := server.Shutdown(closing)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	return err
}

// server is the HTTP server with a bound on everything a client can stretch.
func (p *Page) server() *http.Server {
	return &http.Server{
		Handler:           p.handler,
		ReadHeaderTimeout: HeaderTimeout,
		ReadTimeout:       readTimeout,
		WriteTimeout:      maxWorking + readTimeout,
		IdleTimeout:       idleTimeout,
		MaxHeaderBytes:    maxHeader,
	}
}

// PortOf is the port a listener has taken.
func PortOf(listener net.Listener) int { return listener.Addr().(*net.TCPAddr).Port }

// Addresses lists where a listener is reached, this machine's own first.
func Addresses(listener net.Listener, phone bool) []string {
	port := fmt.Sprint(PortOf(listener))
	found := []string{"http://" + net.JoinHostPort("127.0.0.1", port) + "/"}
	if !phone {
		return found
	}
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return found
	}
	for _, address := range addresses {
		network, ok := address.(*net.IPNet)
		if ok && network.IP.To4() != nil && network.IP.IsGlobalUnicast() {
			found = append(found, "http://"+net.JoinHostPort(network.IP.String(), port)+"/")
		}
	}
	return found
}
