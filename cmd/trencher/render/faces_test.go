package render

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest/journal"
)

// `go test ./cmd/trencher/render -update` writes the golden files anew; read each
// difference.
var update = flag.Bool("update", false, "write the golden files anew")

// A face is one way in which an answer is shown.
type face struct {
	name string
	show func(w io.Writer) error
}

// inFull compares what faces show, one after another, with a golden file.
func inFull(t *testing.T, name string, faces ...face) {
	t.Helper()
	var out bytes.Buffer
	for _, face := range faces {
		out.WriteString("===== " + face.name + "\n")
		require.NoError(t, face.show(&out), face.name)
		refused := errors.New("refused")
		require.ErrorIs(t, face.show(writerFunc(func([]byte) (int, error) { return 0, refused })), refused, "%s: what cannot be written is told", face.name)
	}
	file := filepath.Join("testdata", "faces", name+".txt")
	text := styleSheets.ReplaceAllString(out.String(), "<style>…</style>") // a sheet's are tested by themselves
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, string(want), text)
}

var styleSheets = regexp.MustCompile(`(?s)<style>.*?</style>`)

type writerFunc func([]byte) (int, error)

func (f writerFunc) Write(data []byte) (int, error) { return f(data) }

// text and bare are faces that may tell why, and that do not.
func bare[A any](name string, a A, show func(io.Writer, A) error) face {
	return face{name, func(w io.Writer) error { return show(w, a) }}
}

func whys[A any](name string, a A, show func(io.Writer, A, bool) error) []face {
	return []face{
		{name, func(w io.Writer) error { return show(w, a, false) }},
		{name + ", and why", func(w io.Writer) error { return show(w, a, true) }},
	}
}

func says(name string, lines ...string) face {
	return face{name, func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Join(lines, "\n")+"\n")
		return err
	}}
}

func all(parts ...[]face) (faces []face) {
	for _, part := range parts {
		faces = append(faces, part...)
	}
	return faces
}

// allotment is an invented plot of two seasons, in which something of every kind
// happened, on the evening of 20 July 2031.
func allotment(t *testing.T) ask.PlotRef {
	t.Helper()
	return allotmentAt(t, t.TempDir())
}

func allotmentAt(t *testing.T, dir string) ask.PlotRef {
	t.Helper()
	for name, text := range allotmentFiles {
		path := filepath.Join(dir, filepath.FromSlash(name))
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	}
	return ask.PlotRef{Dir: dir, Now: time.Date(2031, 7, 20, 20, 0, 0, 0, time.FixedZone("", 3600))}
}

var allotmentFiles = map[string]string{
	"kitchen.yaml": `measures: uk
household: 2 adults, 1 child
altitude: 120 m
steamer: {diameter: 240 mm, tiers: 2}
stove: {power: 1.8 kW, gas: butane, rings: 2, canister: 190 g}
pot: {volume: 3 l}
fridge: 4 C
cold-box: {ice: 2 kg, holds: 5 C}
water: carried 3 l
site: {first-frost: 10-20, last-frost: 05-10}
`,
	"plantings.yaml": `- {id: tub-1, crop: potato, variety: Grey Heron, class: first early, planted: 2031-04-02, seed: {count: 3, weight: 190 g}, tub: 30 l, texture: waxy, feed: seaweed, mulch: straw, notes: by the door}
- {id: bed-2, crop: beetroot, variety: Low Lantern, sown: 2031-04-20, bed: 2 m2}
- {id: bed-3, crop: french bean, planted: 2031-05-20, bed: 1 m2}
- {id: bed-4, crop: courgette, planted: 2031-03-01, bed: 1 m2}
- {id: bed-5, crop: leek, planted: 2031-04-10, bed: 1 m2}
- {id: tub-1, crop: potato, variety: Grey Heron, class: first early, planted: 2030-04-05, seed: {count: 4, weight: 260 g}, tub: 30 l}
- {id: bed-6, crop: carrot, planted: 2030-04-05, bed: 1 m2}
`,
	"dishes/crushed.yaml": `name: Crushed potatoes
portions: 4
served: hot
largest: 6
wish: 2
crops: [{crop: potato, amount: 720 g, prepared: scrubbed, cut: cube 30 mm, cook: steam, until: tender}]
others: [{item: butter, amount: 2 oz}, {item: chives, amount: 2 tbsp, state: chopped, from: plot}]
method: [Steam the potatoes., Crush them with the butter.]
`,
	"dishes/plate.yaml": `name: Beetroot and bean plate
portions: 4
served: cold
largest: 8
crops:
  - {crop: beetroot, amount: 400 g, prepared: as-lifted, cut: halves, cook: steam, until: just-tender}
  - {crop: french bean, amount: 300 g, prepared: as-lifted, cook: boil, takes: 30 min, until: tender}
others: [{item: own mayonnaise, amount: 5 fl oz}, {item: walnuts, amount: 30 g, optional: true}, {item: salt, amount: to taste}]
steps: [{do: Toast the walnuts, takes: 5-6 min, uses: ring, before: finish}]
method: [Boil the beans., Steam the beetroot., Dress all of it.]
`,
	"dishes/embers.yaml": `name: Ember potatoes
portions: 2
served: hot
crops: [{crop: potato, amount: 500 g, prepared: as-lifted, cut: whole, cook: own, takes: 35-40 min, uses: embers}]
others: [{item: soured cream, amount: 100 ml}]
method: [Bury them in the embers.]
`,
	"journal/2030/0710-1000-lift-tub-1.yaml":     "kind: lift\nplanting: tub-1\nat: 2030-07-10T10:00:00+01:00\nweighings: [{gross: 4.2 kg, tare: 200 g}]\ngrades: [{sizes: 20-45 mm, weight: 1.5 kg, count: 40}, {sizes: 45-65 mm, weight: 2 kg, condition: scabby}]\nmothers: 250 g\nsoil: 400 g\n",
	"journal/2030/0901-1000-lift-bed-6.yaml":     "kind: lift\nplanting: bed-6\nat: 2030-09-01T10:00:00+01:00\nweighings: [{gross: 3 kg}]\n",
	"journal/2030/0902-1000-store-bed-6.yaml":    "kind: store\nlot: bed-6/2030-0901-1000/ungraded-sound\nweight: 2 kg\nwhere: damp sand\nair: 6 C\nat: 2030-09-02T10:00:00+01:00\n",
	"journal/2030/1001-1200-use-bed-6.yaml":      "kind: use\nlot: bed-6/2030-0901-1000/ungraded-sound\nweight: 300 g\ndish: Soup\nat: 2030-10-01T12:00:00+01:00\n",
	"journal/2030/1101-1200-use-bed-6.yaml":      "kind: use\nlot: bed-6/2030-0901-1000/ungraded-sound\nweight: 300 g\ndish: Soup\nat: 2030-11-01T12:00:00+01:00\n",
	"journal/2030/1201-1200-use-bed-6.yaml":      "kind: use\nlot: bed-6/2030-0901-1000/ungraded-sound\nweight: 200 g\ndish: Soup\nat: 2030-12-01T12:00:00+01:00\n",
	"journal/2030/0712-1200-use-tub-1.yaml":      "kind: use\nlot: tub-1/2030-0710-1000/20-45-sound\nweight: 1.2 kg\ndish: Crushed potatoes\nat: 2030-07-12T12:00:00+01:00\n",
	"journal/2030/0712-1300-cooked-crushed.yaml": "kind: cooked\nbatch: Crushed 1\nfood: mash\ndish: Crushed potatoes\namount: 6\nat: 2030-07-12T13:00:00+01:00\n",
	"journal/2030/0712-1330-eaten-crushed.yaml":  "kind: eaten\nbatch: Crushed 1\namount: 5\nat: 2030-07-12T13:30:00+01:00\n",
	"journal/2030/0712-1400-binned-crushed.yaml": "kind: binned\nbatch: Crushed 1\nat: 2030-07-12T14:00:00+01:00\n",
	"journal/2030/0801-1200-give-tub-1.yaml":     "kind: give\nlot: tub-1/2030-0710-1000/45-65-scabby\nweight: 1 kg\nwhom: neighbours\nat: 2030-08-01T12:00:00+01:00\n",
	"journal/2030/0820-1200-compost-tub-1.yaml":  "kind: compost\nlot: tub-1/2030-0710-1000/45-65-scabby\nweight: 900 g\nbecause: soft\nat: 2030-08-20T12:00:00+01:00\n",
	"journal/2031/0705-1000-lift-tub-1.yaml":     "kind: lift\nplanting: tub-1\nat: 2031-07-05T10:00:00+01:00\nweighings: [{gross: 1.46 kg, tare: 0.31 kg}, {gross: 2 lb 4 oz, tare: 11 oz}]\ngrades:\n  - {sizes: 20-45 mm, weight: 700 g, count: 21}\n  - {sizes: 45-65 mm, weight: 500 g, condition: damaged}\n  - {weight: 60 g, condition: green}\n  - {weight: 40 g, condition: rotten}\nmothers: 120 g\nleft: some\nsays: wet\n",
	"journal/2031/0719-1000-lift-tub-1.yaml":     "kind: lift\nplanting: tub-1\nat: 2031-07-19T10:00:00+01:00\nweighings: [{gross: 1.9 kg, tare: 0.3 kg}]\ngrades: [{sizes: 20-45 mm, weight: 1.2 kg}]\nwhere: trug\n",
	"journal/2031/0719-1030-lift-bed-2.yaml":     "kind: lift\nplanting: bed-2\nat: 2031-07-19T10:30:00+01:00\nweighings: [{gross: 1.5 kg}]\ngrades: [{sizes: 35-55 mm, weight: 1.2 kg, count: 11}]\n",
	"journal/2031/0720-0900-lift-bed-3.yaml":     "kind: lift\nplanting: bed-3\nat: 2031-07-20T09:00:00+01:00\nweighings: [{gross: 620 g, tare: 20 g}]\nleft: none\n",
	"journal/2030/0301-1200-reweighed.yaml":      "kind: reweighed\nlot: bed-6/2030-0901-1000/ungraded-sound\nweight: 1.3 kg\nrotten: 200 g\nat: 2031-03-01T12:00:00+01:00\n",
	"journal/2031/0719-1800-cooked-plate.yaml":   "kind: cooked\nbatch: Plate\nfood: dressed-salad\nalso: cooked-vegetables\ndish: Beetroot and bean plate\namount: 4\nat: 2031-07-20T17:40:00+01:00\n",
	"journal/2031/0719-1830-chilled-plate.yaml":  "kind: chilled\nbatch: Plate\nat: 2031-07-20T18:30:00+01:00\n",
	"journal/2031/0719-1900-out-plate.yaml":      "kind: out\nbatch: Plate\nuntil: 2031-07-20T19:20:00+01:00\nair: 24 C\nat: 2031-07-20T19:00:00+01:00\n",
	"journal/2031/0719-1930-eaten-plate.yaml":    "kind: eaten\nbatch: Plate\namount: 3\nat: 2031-07-20T19:30:00+01:00\n",
	"journal/2031/0717-1300-cooked-old.yaml":     "kind: cooked\nbatch: Old mash\nfood: mash\namount: 500 g\nat: 2031-07-17T13:00:00+01:00\n",
	"journal/2031/0720-1300-note.yaml":           "kind: note\ndish: Crushed potatoes\nsays: less salt\nat: 2031-07-19T13:00:00+01:00\n",
	"journal/2031/0720-1400-steamed.yaml":        "kind: steamed\ncrop: potato\ncut: cube 30 mm\nuntil: tender\nminutes: 18\nload: 500 g\nat: 2031-07-19T13:00:00+01:00\n",
}

// mended is a journal put in order.
var mended = journal.Mended{Written: []string{"journal/2031/a.yaml"}, Finished: []string{"journal/2031/b.yaml"}, Aside: []string{"journal/2031/set-aside/c.yaml", "journal/2031/set-aside/d.yaml"}}

// writeFile puts a file into a plot.
func writeFile(t *testing.T, w ask.PlotRef, name, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(filepath.Join(w.Dir, filepath.FromSlash(name)), []byte(text), 0o644))
}
