//go:build !js

package page

import (
	"context"
	"errors"
	"net"
	"net/http"
	"time"
)

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
