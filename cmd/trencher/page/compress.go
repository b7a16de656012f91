package page

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
)

// leastCompressed is the size from which an answer is compressed, in bytes: a
// smaller one fits one packet of a network (1,500 bytes) as it is.
const leastCompressed = 1400

// compress sends what is text compressed to browsers that take it (RFC 9110,
// section 12.5.3): a garden's end is often the network's, too.
func compress(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Add("Vary", "Accept-Encoding")
		if !takesGzip(r.Header.Get("Accept-Encoding")) {
			next.ServeHTTP(w, r)
			return
		}
		packed := &packer{to: w}
		next.ServeHTTP(packed, r)
		packed.end() // not deferred: what ends in a panic is not to look whole
	})
}

// takesGzip tells whether an Accept-Encoding lets an answer be compressed by gzip.
func takesGzip(accepts string) bool {
	others := false
	for one := range strings.SplitSeq(strings.ToLower(accepts), ",") {
		name, weight, _ := strings.Cut(one, ";")
		_, value, weighed := strings.Cut(weight, "q=")
		q, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
		wanted := !weighed || err == nil && q > 0
		switch strings.TrimSpace(name) {
		case "gzip", "x-gzip":
			return wanted
		case "*":
			others = wanted
		}
	}
	return others
}

// packer holds an answer back until it is whole, and then sends it compressed
// if that is worth while. One that is sent in parts is compressed from its first
// part on; one that is no text goes through as it is.
type packer struct {
	to      http.ResponseWriter
	status  int
	held    bytes.Buffer
	parts   *gzip.Writer // of an answer that is sent in parts
	through bool
}

// Header is the answer's own.
func (p *packer) Header() http.Header { return p.to.Header() }

// WriteHeader keeps the status until it is known how the answer is sent.
func (p *packer) WriteHeader(status int) {
	if p.status != 0 {
		return
	}
	p.status = status
	header := p.Header()
	if header.Get("Content-Encoding") != "" || !strings.HasPrefix(header.Get("Content-Type"), "text/") {
		p.through = true
		p.to.WriteHeader(status)
	}
}

// Write holds what is written.
func (p *packer) Write(data []byte) (int, error) {
	p.WriteHeader(http.StatusOK)
	switch {
	case p.through:
		return p.to.Write(data)
	case p.parts != nil:
		return p.parts.Write(data)
	}
	return p.held.Write(data)
}

// FlushError sends what was written so far.
func (p *packer) FlushError() error {
	p.WriteHeader(http.StatusOK)
	if !p.through {
		if p.parts == nil {
			p.Header().Set("Content-Encoding", "gzip")
			p.Header().Del("Content-Length")
			p.to.WriteHeader(p.status)
			p.parts = gzip.NewWriter(p.to)
			if _, err := p.held.WriteTo(p.parts); err != nil {
				return err
			}
		}
		if err := p.parts.Flush(); err != nil {
			return err
		}
	}
	return http.NewResponseController(p.to).Flush()
}

// Unwrap is the answer underneath, for http.ResponseController.
func (p *packer) Unwrap() http.ResponseWriter { return p.to }

// end sends what is still held. That the browser may have gone is no concern
// of anybody here.
func (p *packer) end() {
	switch {
	case p.parts != nil:
		p.parts.Close()
		return
	case p.through || p.status == 0:
		return
	}
	whole := p.held.Bytes()
	if len(whole) >= leastCompressed {
		p.Header().Set("Content-Encoding", "gzip")
		whole = compressed(whole)
	}
	p.Header().Set("Content-Length", strconv.Itoa(len(whole)))
	p.to.WriteHeader(p.status)
	p.to.Write(whole)
}

// compressed is data as gzip has it.
func compressed(data []byte) []byte {
	var packed bytes.Buffer
	to := gzip.NewWriter(&packed)
	to.Write(data) // a buffer takes everything
	to.Close()
	return packed.Bytes()
}
