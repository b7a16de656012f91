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

	mu    sync.Mutex // of what is remembered; never held while anything is worked out or written
	wrote map[string]writing
	order []string
	busy  map[string]chan struct{} // the forms that are at work, until closed

	// One form at a time goes through each of these. What takes long has its own,
	// so that it keeps nothing else waiting.
	writes, records, cooks sync.Mutex
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
	return o.doIn(&o.writes, r, token, write)
}

// doIn is do for what waits for its turn in a lane of its own.
func (o *once) doIn(lane *sync.Mutex, r *http.Request, token *string, write func(form string) (says string, err error)) error {
	end, err := o.begin(r.Context(), *token)
	if err != nil {
		return err
	}
	defer end()
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
	says, err := func() (string, error) {
		lane.Lock()
		defer lane.Unlock()
		return write(form)
	}()
	if err != nil {
		return err
	}
	o.remember(*token, writing{form, says})
	return nil
}

// begin waits until nobody else is at work on the form with this token: sent
// twice at once, it is written by the first and found by the second.
func (o *once) begin(ctx context.Context, token string) (end func(), err error) {
	for {
		other, free := o.take(token)
		if other == nil {
			return free, nil
		}
		select {
		case <-other:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
	}
}

// take takes a form, or returns what is closed when who has it is done.
func (o *once) take(token string) (other chan struct{}, free func()) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if other := o.busy[token]; other != nil {
		return other, nil
	}
	if o.busy == nil {
		o.busy = map[string]chan struct{}{}
	}
	mine := make(chan struct{})
	o.busy[token] = mine
	return nil, func() {
		o.mu.Lock()
		delete(o.busy, token)
		o.mu.Unlock()
		close(mine)
	}
}

// isOfEarlier tells whether a form is of a page that ran before this one.
func (o *once) isOfEarlier(token string) bool {
	return token != "" && !strings.HasPrefix(token, o.born)
}

// find looks for what a form wrote: in memory and, where the form is of a page
// that ran before this one, in the journal.
func (o *once) find(ctx context.Context, token string) (writing, bool, error) {
	if before, done := o.remembered(token); done {
		return before, true, nil
	}
	if !o.isOfEarlier(token) || o.where().Demo {
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

func (o *once) remembered(token string) (writing, bool) {
	o.mu.Lock()
	defer o.mu.Unlock()
	before, done := o.wrote[token]
	return before, done
}

func (o *once) remember(token string, w writing) {
	o.mu.Lock()
	defer o.mu.Unlock()
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
