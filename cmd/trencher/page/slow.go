package page

import (
	"html/template"
	"io"
	"net/http"
	"strings"
	"time"
)

// patience is how long an answer may take before the page says that it is
// being worked out.
const patience = time.Second

// showSlowly shows a screen whose answer may take a while. After a second the
// top of the page goes out with a line that it is being worked out; the line
// gives way, by the style sheet, to the answer when that comes.
func (p *Page) showSlowly(w http.ResponseWriter, r *http.Request, name string, s screen, work func() (status int, data any)) {
	done := make(chan outcome, 1)
	go func() { done <- outcomeOf(work) }()
	waited := time.NewTimer(p.patience)
	defer waited.Stop()
	select {
	case got := <-done:
		s.Data = got.orPanic()
		p.show(w, r, got.status, name, s)
		return
	case <-waited.C:
	}
	p.frame(r, &s)
	screens := p.screens[name]
	if !sendPart(w, screens, "top", s, `<p class="working" role="status">Working it out …</p>`+"\n") {
		return
	}
	got := <-done
	s.Data = got.orPanic()
	sendPart(w, screens, "rest", s, "")
}

// outcome is what some work came to.
type outcome struct {
	status   int
	data     any
	panicked any
}

// outcomeOf does the work. A panic is carried over to the request's own
// goroutine, where the server catches it.
func outcomeOf(work func() (status int, data any)) (o outcome) {
	defer func() { o.panicked = recover() }()
	o.status, o.data = work()
	return o
}

func (o outcome) orPanic() any {
	if o.panicked != nil {
		panic(o.panicked)
	}
	return o.data
}

// sendPart sends one part of a screen at once. It tells whether the browser
// is still there.
func sendPart(w http.ResponseWriter, screens *template.Template, part string, s screen, after string) bool {
	var text strings.Builder
	if err := screens.ExecuteTemplate(&text, part, s); err != nil {
		text.WriteString("<p>The page could not be laid out.</p>")
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	if _, err := io.WriteString(w, text.String()+after); err != nil {
		return false
	}
	return http.NewResponseController(w).Flush() == nil
}
