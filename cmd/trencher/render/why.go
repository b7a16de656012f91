package render

import (
	"bytes"
	"encoding/json"
	"io"

	"trencher/units"
)

// Reasons writes what an answer rests on, as text.
func Reasons(w io.Writer, list []units.Reason) error {
	p := page{lines: []string{""}}
	reasons(&p, list, true)
	return p.writeTo(w)
}

// WithReasons writes the JSON object that write writes with one member more,
// "why": what the answer rests on.
func WithReasons(w io.Writer, list []units.Reason, write func(io.Writer) error) error {
	var object bytes.Buffer
	if err := write(&object); err != nil {
		return err
	}
	why, err := json.Marshal(each(list, reasonOf))
	if err != nil {
		return err
	}
	open := bytes.TrimSuffix(bytes.TrimSpace(object.Bytes()), []byte("}"))
	joined := append(append(append(bytes.TrimSpace(open), `,"why":`...), why...), '}')
	return writeJSON(w, json.RawMessage(joined))
}
