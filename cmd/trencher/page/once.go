package page

import (
	"maps"
	"net/http"
	"net/url"
	"sync"
)

// once keeps a form that is sent twice, by a double tap or a reload, from
// being written twice, and remembers what to say of it.
type once struct {
	mu    sync.Mutex
	wrote map[string]writing
	order []string
}

// writing is what was written of a form, and what to say of it.
type writing struct{ contents, says string }

// maxRemembered bounds the memory; the oldest goes first.
const maxRemembered = 512

// do writes what was sent unless the same form with the same contents has been
// written. Sent again with other contents, after "Back", nothing is written and
// the error is a *writtenOtherwise; the form gets a new token, so that it can be
// sent once more as one of its own. A failed write may be tried again.
func (o *once) do(r *http.Request, token *string, write func() (says string, err error)) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	contents := contentsOf(r)
	if before, done := o.wrote[*token]; done {
		if before.contents == contents {
			return nil
		}
		*token = newToken()
		return &writtenOtherwise{before.says}
	}
	says, err := write()
	if err != nil {
		return err
	}
	if o.wrote == nil {
		o.wrote = map[string]writing{}
	}
	o.wrote[*token] = writing{contents, says}
	o.order = append(o.order, *token)
	if len(o.order) > maxRemembered {
		delete(o.wrote, o.order[0])
		o.order = o.order[1:]
	}
	return nil
}

// contentsOf is what a form says, apart from what tells one sending from another.
func contentsOf(r *http.Request) string {
	contents := url.Values(maps.Clone(r.PostForm))
	contents.Del("once")
	contents.Del("sure")
	return contents.Encode()
}

// of is what to say of a written form; "" when it is not remembered.
func (o *once) of(token string) string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.wrote[token].says
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
