package harvest

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"trencher/units"
)

// Batch is one lot of cooked food as its journal events tell it up to a moment:
// where it is, how it got there, and how much is left. It judges nothing;
// package keeping does, on this history.
//
// Where an event takes it, by where it is; "no" is an event that cannot be, and
// +1 that a reheating counts:
//
//	             chilled     out              reheated
//	Cooling      Cold        OutOfFridge      HeatedUp
//	Cold         no          OutOfFridge      HeatedUp
//	OutOfFridge  Cold        no, or new air   HeatedUp
//	HeatedUp     Cold +1     HeatedUp         HeatedUp +1
//
// Eaten and binned take from it anywhere, to Gone when nothing is left; nothing
// can be of what is gone. The same name cooked again is another batch.
type Batch struct {
	Name, Dish string
	Food       string         // what it is to food safety, such as boiled-potatoes
	Also       []string       // what else is in it
	CookedAt   time.Time      // zero: nobody logged it
	ChilledAt  time.Time      // first in the fridge; zero: not yet, or nobody logged it
	Out        []Spell        // out of the fridge, in the order they began
	Reheatings int            // times it was heated up and has cooled since
	State      BatchState     // at the moment
	Amount     units.Quantity // as cooked; may be absent
	Left       units.Quantity // of Amount; below nothing where more was eaten; absent where Amount is

	over int // how many of Out, from the first, are known to be over
}

// Spell is a stretch of time out of the fridge, in air of a temperature where
// that was told. A zero To means that it is still going on.
type Spell struct {
	From, To time.Time
	Air      units.Quantity
}

// BatchState is where a cooked batch is.
type BatchState string

// The states of a batch. It cools from the moment it was cooked, hot at first.
const (
	Cooling     BatchState = "cooling"       // off the heat, not in the fridge yet
	Cold        BatchState = "cold"          // in the fridge
	OutOfFridge BatchState = "out of fridge" // taken out
	HeatedUp    BatchState = "heated up"     // and not cooled again
	Gone        BatchState = "gone"          // eaten or binned, to the last of it
)

// Batches folds the batch events up to a moment into batches, in the order they
// were cooked. What is gone is among them. Entries may come in any order;
// corrected ones are to be left out before (see [Correct]).
//
// Every event is taken, even one that cannot be: the stricter reading of a
// journal that contradicts itself is that all of it happened.
func Batches(entries []Entry, moment time.Time) []*Batch {
	return foldBatches(entries, moment).batches
}

// batchFold is the batches that events make, and what is wrong with events.
type batchFold struct {
	batches []*Batch
	called  map[string]*namesakes // by name, however its letters are cased
	events  []*BatchEvent         // in the order they happened
	of      map[*BatchEvent]*Batch
	refused map[*BatchEvent]error // why an event cannot be
}

func foldBatches(entries []Entry, moment time.Time) batchFold {
	f := batchFold{called: map[string]*namesakes{}, of: map[*BatchEvent]*Batch{}, refused: map[*BatchEvent]error{}}
	for _, e := range lifeOrder(entries) {
		if e.At.After(moment) {
			break
		}
		b := f.batchOf(e)
		f.events, f.of[e] = append(f.events, e), b
		if err := b.take(e, moment); err != nil {
			f.refused[e] = err
		}
	}
	for _, b := range f.batches {
		b.passUntil(moment)
	}
	return f
}

// batchOf is the batch an event is of: a new one when it was cooked, else the
// one of that name that was cooked last and is not gone.
func (f *batchFold) batchOf(e *BatchEvent) *Batch {
	same := f.called[uncased(e.Name)]
	if same == nil {
		same = &namesakes{}
		f.called[uncased(e.Name)] = same
	}
	if e.Event != KindCooked {
		if b := same.meant(); b != nil {
			return b
		}
	}
	b := &Batch{Name: e.Name, State: Cooling}
	f.batches, same.left, same.last = append(f.batches, b), append(same.left, b), b
	return b
}

// namesakes are the batches of one name.
type namesakes struct {
	left []*Batch // in the order they were cooked, without some that are gone
	last *Batch
}

// meant is the batch that was cooked last of those that are not gone; where all
// are gone, the last of all.
func (n *namesakes) meant() *Batch {
	for len(n.left) > 0 && n.left[len(n.left)-1].State == Gone {
		n.left = n.left[:len(n.left)-1]
	}
	if len(n.left) > 0 {
		return n.left[len(n.left)-1]
	}
	return n.last
}

func (b *Batch) isCalled(name string) bool { return strings.EqualFold(b.Name, name) }

// uncased is the same for names that are alike but for the case of their letters.
func uncased(name string) string {
	return strings.Map(func(letter rune) rune {
		least := letter
		for other := unicode.SimpleFold(letter); other != letter; other = unicode.SimpleFold(other) {
			least = min(least, other)
		}
		return least
	}, name)
}

// lifeOrder is the batch events by moment. What is logged of one moment
// happened in the order a batch's life takes.
func lifeOrder(entries []Entry) []*BatchEvent {
	var events []*BatchEvent
	for _, e := range entries {
		if event, ok := e.(*BatchEvent); ok {
			events = append(events, event)
		}
	}
	slices.SortStableFunc(events, func(a, b *BatchEvent) int {
		return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.place(), b.place()), cmp.Compare(a.File, b.File))
	})
	return events
}

// place is where an event comes in a batch's life: what takes a part before
// what takes the rest.
func (e *BatchEvent) place() int {
	switch e.Event {
	case KindCooked:
		return 0
	case KindChilled:
		return 1
	case KindOut:
		return 2
	case KindReheated:
		return 3
	}
	if e.Amount.IsValid() {
		return 4
	}
	return 5
}

// take moves the batch on by one event, and says why the event cannot be where
// it cannot.
func (b *Batch) take(e *BatchEvent, moment time.Time) error {
	b.passUntil(e.At)
	err := b.refuses(e)
	switch e.Event {
	case KindCooked:
		b.Dish, b.Food, b.Also, b.CookedAt, b.Amount, b.Left = e.Dish, e.Food, e.Also, e.At, e.Amount, e.Amount
	case KindChilled:
		b.chill(e.At)
	case KindOut:
		b.takeOut(e, moment)
	case KindReheated:
		b.reheat(e.At)
	case KindEaten, KindBinned:
		b.lessen(e.Amount)
	}
	return err
}

// refuses says why an event cannot be, by where the batch is.
func (b *Batch) refuses(e *BatchEvent) error {
	problem, accepted := "", ""
	switch {
	case e.Event == KindCooked:
		return nil
	case b.CookedAt.IsZero() || b.State == Gone:
		problem, accepted = "no batch of that name was there", "the name of a batch, once it is logged as cooked"
	case e.Event == KindChilled && b.State == Cold:
		problem, accepted = "it was in the fridge already", "when it came out before that, or nothing"
	case e.Event == KindChilled && b.ChilledAt.IsZero() && len(b.Out) > 0:
		problem, accepted = "nobody logged when it was first in the fridge", "first when it was chilled before it came out at "+stamp(b.Out[0].From)
	case e.Event == KindOut && b.State == OutOfFridge && !e.Air.IsValid():
		problem, accepted = "it was out of the fridge already", "how warm the air is there, or nothing"
	default:
		return nil
	}
	return units.WrongField("", "", fmt.Sprintf("%s %s at %s cannot be: %s", b.Name, e.Event, stamp(e.At), problem), accepted)
}

// passUntil brings the batch to a moment: a spell out that had an end is over.
func (b *Batch) passUntil(moment time.Time) {
	if b.State != OutOfFridge {
		return
	}
	for _, s := range b.Out[b.over:] {
		if s.To.IsZero() || s.To.After(moment) {
			return
		}
		b.over++
	}
	b.State = Cold
}

// chill puts the batch into the fridge, for the first time or again: what was
// heated up has cooled.
func (b *Batch) chill(at time.Time) {
	if b.State == HeatedUp {
		b.Reheatings++
	}
	if b.ChilledAt.IsZero() {
		b.ChilledAt = at
	} else {
		for i := b.over; i < len(b.Out); i++ {
			if b.Out[i].To.IsZero() {
				b.Out[i].To = at
			}
		}
	}
	b.settle(Cold)
}

// takeOut begins a spell out of the fridge; an end that is still to come at the
// moment of asking is none yet.
func (b *Batch) takeOut(e *BatchEvent, moment time.Time) {
	s := Spell{From: e.At, To: e.Until, Air: e.Air}
	if s.To.After(moment) {
		s.To = time.Time{}
	}
	b.Out = append(b.Out, s)
	if b.State != HeatedUp {
		b.settle(OutOfFridge)
	}
}

// reheat heats the batch up: it is out of the fridge from then on. Heated up
// again without a stay in the fridge between, it has cooled on the table.
func (b *Batch) reheat(at time.Time) {
	if b.State == HeatedUp {
		b.Reheatings++
	}
	if !b.ChilledAt.IsZero() || len(b.Out) > 0 {
		b.Out = append(b.Out, Spell{From: at})
	}
	b.settle(HeatedUp)
}

// settle is the batch's next state; what is gone stays gone.
func (b *Batch) settle(state BatchState) {
	if b.State != Gone {
		b.State = state
	}
}

// lessen takes away what was eaten or binned; without an amount that is all of
// it. Amounts that cannot be compared leave it standing.
func (b *Batch) lessen(amount units.Quantity) {
	if !amount.IsValid() {
		b.State = Gone
		return
	}
	left, err := b.Left.Sub(amount)
	if !b.Left.IsValid() || err != nil {
		return
	}
	b.Left = left
	if left.Sign() <= 0 {
		b.State = Gone
	}
}

// Fitting are the events that can be of the batch as it is now.
func (b *Batch) Fitting() (events []string) {
	for _, event := range []string{KindChilled, KindOut, KindReheated, KindEaten, KindBinned} {
		if b.refuses(&BatchEvent{Event: event, Name: b.Name}) == nil {
			events = append(events, event)
		}
	}
	return events
}
