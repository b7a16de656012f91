package page

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"trencher/cmd/trencher/ask"
)

// FuzzForms sends any values to any screen of the demo plot, where nothing can
// be written: whatever comes, the answer is a whole page, no fault of ours,
// and nothing that was sent comes back as markup.
func FuzzForms(f *testing.F) {
	seeds := []string{
		"bowl-1-full=1.46&bowl-1-empty=0.31&planting=tub-1&grade-1-weight=9&grade-1-low=20&grade-1-high=45&grade-1-condition=green",
		"go=1&dish=Spring+onion+mash&serve=18:30&guests=6+adults%0A2+no+milk&sides=2&limits=butter+=+1+g&keep=1+kg+potato&air=40+C",
		"name=Spring+onion+mash&lifted=1e9+kg&portions=-1&serve=99:99",
		"crop=potato,+waxy&cut=slice&until=soft&size=0.0001&load=1e308+kg",
		"lot=x&to=use&weight=-0&unit=oz&at=0000-00-00T00:00",
		"event=cooked&food=boiled-potatoes&name=%00%ff&amount=1/0",
		"year=2031&done=%3Cscript%3E&more=1&once=",
		`bowl-1-full="><script>alert(1)</script>`,
	}
	for _, seed := range seeds {
		for at := range jobs() {
			f.Add(at, false, seed)
			f.Add(at, true, seed)
		}
	}
	p, err := New(Options{Where: ask.PlotRef{Demo: true}, Port: testPort, Now: func() time.Time { return testNow }})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, at int, write bool, query string) {
		form, err := url.ParseQuery(query)
		if err != nil || at < 0 || at >= len(jobs()) {
			return
		}
		path := jobs()[at].Path
		asked := request("GET", "/", nil, nil)
		if write {
			asked = request("POST", "/", form, nil)
		}
		asked.URL.Path = path
		if !write {
			asked.URL.RawQuery = form.Encode()
		}
		w := follow(p.Handler(), serve(p.Handler(), asked))
		switch w.Code {
		case http.StatusOK, http.StatusUnprocessableEntity, http.StatusNotFound, http.StatusRequestEntityTooLarge, http.StatusBadRequest:
		default:
			t.Errorf("%s?%s: %d %s", path, form.Encode(), w.Code, w.Body.String())
		}
		if strings.Contains(withoutOwnScripts(p, w.Body.String()), "<script") || !strings.HasSuffix(strings.TrimSpace(w.Body.String()), "</html>") {
			t.Errorf("%s?%s: %s", path, form.Encode(), w.Body.String())
		}
	})
}
