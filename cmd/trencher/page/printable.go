package page

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"strings"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

// sendPrintable answers with a page to print, whose style stands in it: the policy
// lets in exactly that style and nothing else.
func sendPrintable(w http.ResponseWriter, text, style string) {
	sum := sha256.Sum256([]byte("\n" + style))
	w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+
		"'; form-action 'none'; base-uri 'none'; frame-ancestors 'none'")
	send(w, "text/html; charset=utf-8", text)
}

// sendReckoner answers with the ready reckoner of the dishes named, else of all that
// fit.
func (p *Page) sendReckoner(w http.ResponseWriter, r *http.Request) {
	done, err := p.atWork(r.Context())
	if err != nil {
		p.fail(w, r, err)
		return
	}
	defer done()
	answer, err := ask.Reckoner(r.Context(), p.ask(), r.Form["dish"])
	var text strings.Builder
	if err == nil {
		_, err = render.Reckoner(&text, answer)
	}
	if err != nil {
		p.fail(w, r, err)
		return
	}
	sendPrintable(w, text.String(), render.ReckonerStyle())
}
