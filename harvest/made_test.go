package harvest

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// A dish was last made when a lot last went into it or a batch of it was cooked;
// what was given away, other dishes and what came later do not count.
func TestLastMade(t *testing.T) {
	at := func(day int) time.Time { return time.Date(2031, 7, day, 12, 0, 0, 0, time.UTC) }
	use := func(day int, to, dish string) Entry {
		return &Move{Header: Header{At: at(day)}, To: to, Dish: dish}
	}
	made := LastMade([]Entry{
		use(3, KindUse, "Mash"), use(5, KindUse, "mash"), use(9, KindGive, "Mash"), use(4, KindUse, ""),
		&BatchEvent{Header: Header{At: at(7)}, Event: KindCooked, Dish: "Salad"},
		&BatchEvent{Header: Header{At: at(8)}, Event: KindEaten, Dish: "Salad"},
		use(20, KindUse, "Salad"),
	}, at(10))
	assert.Equal(t, at(5), made.Last("MASH"))
	assert.Equal(t, at(7), made.Last("Salad"))
	assert.Zero(t, made.Last("Soup"))
	assert.Zero(t, Made{}.Last("Mash"))
}
