package spelled

import (
	"math/big"
	"net/netip"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

type bed struct {
	Name   string
	Width  float64
	Sown   time.Time
	Lasts  time.Duration
	Share  *big.Rat
	Rows   []row
	Nobody *row
	Within any
	Place  netip.Addr
	Sides  [2]int
	hidden int
}

type row struct {
	Crop  string
	Count int
	Next  *row
	Notes []string
	seen  bool
}

func TestOut(t *testing.T) {
	b := bed{Name: "bed-1", Width: 1.23456, Sown: time.Date(2031, 4, 2, 9, 5, 0, 0, time.UTC), Lasts: 90 * time.Minute, Share: big.NewRat(3, 4),
		Rows: []row{{Crop: "leek", Count: 3, Next: &row{Crop: "carrot"}}, {}, {Notes: []string{"a", "b"}, seen: true}}, Within: row{Count: 2},
		Place: netip.MustParseAddr("::1"), Sides: [2]int{1, 0}, hidden: 7}
	assert.Equal(t, `Name: bed-1
Width: 1.23
Sown: 2031-04-02 09:05:00
Lasts: 1h30m0s
Share: 3/4
Rows 1: {Crop leek, Count 3, Next {Crop carrot}}
Rows 2: {}
Rows 3: {Notes [a, b]}
Within: {Count 2}
Place: ::1
Sides: [1, 0]
`, Out(b, nil))
	crops := func(value any) (string, bool) {
		r, ok := value.(row)
		return "a row of " + r.Crop, ok
	}
	assert.Equal(t, "Rows 1: a row of leek\n", Out(struct{ Rows []row }{b.Rows[:1]}, crops))
	assert.Equal(t, "[none, {Crop leek}]", Line([]*row{nil, {Crop: "leek"}}, nil))
	assert.Equal(t, "[none, 3]", Line([]any{nil, 3}, crops))
	assert.Equal(t, "unwritten", Line(bigText{}, func(value any) (string, bool) { _, ok := value.(bigText); return "unwritten", ok }))
	assert.Equal(t, "{}", Line(bigText{}, nil), "what cannot write itself is spelled out")
	assert.Equal(t, "moon", Line(named{7}, nil))
	assert.Equal(t, "{None [], Some [1]}", Line(struct{ None, Some []int }{[]int{}, []int{1}}, nil), "an empty list is told from none")
	type weights struct{ One, Other weight }
	assert.Equal(t, "{Other {Grams 3}}", Line(weights{weight{0, 2}, weight{3, 0}}, nil))
}

// weight is nothing where it has no grams, however many zeroes it is written with.
type weight struct{ Grams, Zeroes int }

func (w weight) IsZero() bool { return w.Grams == 0 }

// bigText says that it writes itself, and cannot.
type bigText struct{}

func (bigText) MarshalText() ([]byte, error) { return nil, assert.AnError }

type named struct{ Number int }

func (named) MarshalText() ([]byte, error) { return []byte("moon"), nil }
