package page

import (
	"context"
	"maps"
	"net/http"
	"net/url"
	"strings"
	"sync"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
	"trencher/harvest"
)

// once keeps a form that is sent twice, by a double tap or a reload, from
// being written twice, and remembers what to say of it. Each form has a token of
// its own, which goes into the journal with what is written: a page that was
// started anew finds it there.
type once struct {
	born  string // how the tokens of this page begin
	where func() ask.PlotRef

	mu    sync.Mutex
	wrote map[string]writing
	order []string
}

// writing is what was written of a form, and what to say of it.
type writing struct{ form, says string }

// maxRemembered bounds the memory; the oldest goes first.
const maxRemembered = 512

// token is for a new form.
func (o *once) token() string { return o.born + newToken() }

// do writes what was sent unless the same form with the same contents has been
// written. Sent again with other contents, after "Back", nothing is written and
// the error is a *writtenOtherwise; the form gets a new token, so that it can be
// sent once more as one of its own. A failed write may be tried again. What is
// written is to keep the form that write is given.
func (o *once) do(r *http.Request, token *string, write func(form string) (says string, err error)) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	form := harvest.FormOf(*token, contentsOf(r))
	before, done, err := o.find(r.Context(), *token)
	switch {
	case err != nil:
		return err
	case done && before.form == form:
		return nil
	case done:
		*token = o.token()
		return &writtenOtherwise{before.says}
	}
	says, err := write(form)
	if err != nil {
		return err
	}
	o.remember(*token, writing{form, says})
	return nil
}

// find looks for what a form wrote: in memory and, where the form is of a page
// that ran before this one, in the journal.
func (o *once) find(ctx context.Context, token string) (writing, bool, error) {
	if before, done := o.wrote[token]; done {
		return before, true, nil
	}
	if token == "" || strings.HasPrefix(token, o.born) || o.where().Demo {
		return writing{}, false, nil
	}
	ledger, err := ask.Ledger(o.where())
	if err != nil {
		return writing{}, false, err
	}
	found, err := ledger.WrittenBy(ctx, token)
	if err != nil || len(found) == 0 {
		return writing{}, false, err
	}
	last := found[len(found)-1]
	before := writing{last.Head().Form, "Written down: " + render.EntryWords(last) + "."}
	o.remember(token, before)
	return before, true, nil
}

func (o *once) remember(token string, w writing) {
	if o.wrote == nil {
		o.wrote = map[string]writing{}
	}
	if _, known := o.wrote[token]; !known {
		o.order = append(o.order, token)
	}
	o.wrote[token] = w
	if len(o.order) > maxRemembered {
		delete(o.wrote, o.order[0])
		o.order = o.order[1:]
	}
}

// contentsOf is what a form says, apart from what tells one sending from another.
func contentsOf(r *http.Request) string {
	contents := url.Values(maps.Clone(r.PostForm))
	contents.Del("once")
	contents.Del("sure")
	return r.URL.Path + "?" + contents.Encode()
}

// of is what to say of a written form; "" when nothing is known of it.
func (o *once) of(r *http.Request) string {
	o.mu.Lock()
	defer o.mu.Unlock()
	before, _, _ := o.find(r.Context(), typed(r, "done"))
	return before.says
}

// writtenOtherwise tells that a form was written down already, and that what was
// sent now is something else.
type writtenOtherwise struct{ says string }

func (e *writtenOtherwise) Error() string {
	return "this form was written down before, and not as it stands here: " + e.says + " Now nothing was written"
}

// Hint is what can be done.
func (e *writtenOtherwise) Hint() string {
	return "Is this a correction? Undo that entry first. Then, or if it is a second one, send this again"
}
