package page

import "sync"

// once keeps a form that is sent twice, by a double tap or a reload, from
// being written twice, and remembers what to say of it.
type once struct {
	mu    sync.Mutex
	said  map[string]string
	order []string
}

// maxRemembered bounds the memory; the oldest goes first.
const maxRemembered = 512

// do writes unless a form of this token has been written; says is what to
// tell of it either way. A failed write may be tried again.
func (o *once) do(token string, write func() (says string, err error)) error {
	o.mu.Lock()
	defer o.mu.Unlock()
	if _, done := o.said[token]; done {
		return nil
	}
	says, err := write()
	if err != nil {
		return err
	}
	if o.said == nil {
		o.said = map[string]string{}
	}
	o.said[token] = says
	o.order = append(o.order, token)
	if len(o.order) > maxRemembered {
		delete(o.said, o.order[0])
		o.order = o.order[1:]
	}
	return nil
}

// of is what to say of a written form; "" when it is not remembered.
func (o *once) of(token string) string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.said[token]
}
