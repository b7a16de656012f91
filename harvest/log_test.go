package harvest

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

var evening = day("2031-07-12 20:00")

// newLift is a lift of the tub that nobody has dated yet.
func newLift(planting, net string) *Lift {
	return &Lift{Planting: planting, Weighings: []Weighing{{Gross: units.MustParse(net)}}}
}

func TestLiftIsWritten(t *testing.T) {
	l, s := ledgerOf()
	lift := newLift("tub-3", "1 kg")
	logged, err := l.Lift(context.Background(), lift, evening.Add(500*time.Millisecond))
	require.NoError(t, err)
	assert.Equal(t, evening, lift.At, "now, in whole seconds")
	assert.Equal(t, []Entry{lift}, s[2031])
	assert.Equal(t, "Weir Gold", logged.From.Variety)
	require.Len(t, logged.Lots, 1)
	assert.Equal(t, "!tub-3/ungraded-sound=1000/1000", onHand(t, l, "2031-07-15"))
	assert.Empty(t, logged.Warnings)
}

// What cannot be is told by its field, and nothing is written.
func TestLiftsThatCannotBe(t *testing.T) {
	at := func(l *Lift, when string) *Lift { l.At = day(when); return l }
	empty := &Lift{Planting: "tub-3"}
	for name, row := range map[string]struct {
		lift        *Lift
		field, says string
	}{
		"no bowl":               {empty, "weighing", "a lift without a weighing"},
		"unknown planting":      {newLift("tub-9", "1 kg"), "planting", "not in plantings.yaml"},
		"before it was planted": {at(newLift("bed-1", "1 kg"), "2031-04-19"), "at", "before bed-1 was planted"},
		"still to come":         {at(newLift("bed-1", "1 kg"), "2031-07-12 20:03"), "at", "still to come, by this machine's clock (2031-07-12 20:00)"},
	} {
		l, s := ledgerOf()
		_, err := l.Lift(context.Background(), row.lift, evening)
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
		assert.Equal(t, row.says, wrong.Problem, name)
		assert.NotEmpty(t, wrong.Accepted, name)
		assert.Empty(t, s, name)
	}
	l, _ := ledgerOf()
	_, err := l.Lift(context.Background(), at(newLift("bed-1", "1 kg"), "2031-07-12 20:02"), evening)
	require.NoError(t, err, "two clocks may disagree by two minutes")
}

// A machine that has lost its clock stands before the planting: then it is
// plainly not the plot's, and the time given is taken with a warning.
func TestAClockThatIsNotThePlots(t *testing.T) {
	l, s := ledgerOf()
	lost := day("2026-05-01")
	lift := newLift("tub-3", "1 kg")
	lift.At = day("2031-07-12 16:40")
	logged, err := l.Lift(context.Background(), lift, lost)
	require.NoError(t, err)
	assert.Equal(t, []Warning{ClockBehind{lost, "tub-3 was planted"}}, logged.Warnings)
	assert.Equal(t, "this machine's clock says 2026-05-01, before tub-3 was planted; the time given was taken as it is", logged.Warnings[0].String())

	use := &Move{To: KindUse, Weight: units.MustParse("100 g")}
	use.At = day("2031-07-13")
	moved, err := l.Move(context.Background(), use, "tub-3", lost)
	require.NoError(t, err)
	assert.Equal(t, []Warning{ClockBehind{lost, "tub-3/ungraded-sound was lifted"}}, moved.Warnings)
	assert.Len(t, s[2031], 2)

	_, err = l.Lift(context.Background(), newLift("tub-3", "1 kg"), lost)
	require.ErrorContains(t, err, "before tub-3 was planted", "a lift of now is none by that clock")
	_, err = l.Move(context.Background(), &Move{To: KindUse}, "tub-3", lost)
	require.ErrorContains(t, err, "before tub-3/ungraded-sound was lifted", "nor is a use")
}

// A correction takes the time of what it corrects, and its lots keep the names
// they had, so that what was used stays used.
func TestLiftInPlaceOfAnother(t *testing.T) {
	l, s := ledgerOf(usualLift(), moveOf(KindUse, "2031-07-13 12:00", usual, "320 g"))
	lift := newLift("tub-3", "2 kg")
	lift.Grades = usualLift().Grades
	lift.Replaces = "0712-1640-lift-tub-3"
	logged, err := l.Lift(context.Background(), lift, day("2031-07-20"))
	require.NoError(t, err)
	assert.Equal(t, day("2031-07-12 16:40"), lift.At)
	assert.Equal(t, usual, logged.Lots[1].ID, "as the account calls it")
	assert.Contains(t, onHand(t, l, "2031-07-13"), "tub-3/20-45-scabby=500/500")
	assert.Contains(t, onHand(t, l, "2031-07-13"), "tub-3/ungraded-sound=330/330", "2000 g less the grades of 1670 g")
	assert.Len(t, s[2031], 3, "nothing is overwritten")

	again := newLift("tub-3", "1 kg")
	again.Replaces = lift.Stem()
	_, err = l.Lift(context.Background(), again, day("2031-07-20"))
	require.ErrorContains(t, err, "there is no lot "+usual, "320 g of it were used")
	assert.Empty(t, again.File, "what was not written has no file")
	twice := newLift("tub-3", "2 kg")
	twice.Replaces = "0712-1640-lift-tub-3"
	_, err = l.Lift(context.Background(), twice, day("2031-07-20"))
	require.ErrorContains(t, err, "journal/2031/0712-1640-lift-tub-3.yaml: struck out or corrected already, by "+lift.File)
	elsewhen := newLift("tub-3", "2 kg")
	elsewhen.At, elsewhen.Replaces = day("2030-07-12"), lift.Stem()
	_, err = l.Lift(context.Background(), elsewhen, day("2031-07-20"))
	require.ErrorContains(t, err, `at "2030-07-12": in another season than `+lift.File)
	wrongKind := newLift("tub-3", "2 kg")
	wrongKind.Replaces = "0713-1200-use-tub-3"
	_, err = l.Lift(context.Background(), wrongKind, day("2031-07-20"))
	require.ErrorContains(t, err, `replaces "0713-1200-use-tub-3": no lift entry of that name in the journal`)
	assert.Len(t, s[2031], 3)
}

// The latest season is looked through first, and any is found.
func TestCorrectionsAcrossSeasons(t *testing.T) {
	old := liftOf("tub-3", "2030-07-12 16:40", "500 g")
	l, s := ledgerOf(old, usualLift())
	lift := newLift("tub-3", "600 g")
	lift.Replaces = "0712-1640-lift-tub-3"
	_, err := l.Lift(context.Background(), lift, day("2031-07-20"))
	require.NoError(t, err)
	assert.Equal(t, 2031, lift.At.Year(), "the name stands in both seasons: the later is meant")
	carrots := newLift("tub-3", "700 g")
	carrots.Replaces = old.File
	logged, err := l.Lift(context.Background(), carrots, day("2031-07-20"))
	require.NoError(t, err)
	assert.Equal(t, "carrot", logged.From.Crop, "what stood in the tub that year")
	assert.Len(t, s[2030], 2)
	v, err := l.Void(context.Background(), carrots.File, "weighed twice", day("2031-07-21"))
	require.NoError(t, err)
	assert.Equal(t, []Entry{old, carrots, v}, s[2030], "under the season of what it strikes out")
}

func TestVoid(t *testing.T) {
	use := moveOf(KindUse, "2031-07-13 12:00", usual, "320 g")
	l, s := ledgerOf(usualLift(), use)
	void := func(name string) error {
		_, err := l.Void(context.Background(), name, "", day("2031-07-20"))
		return err
	}
	require.ErrorContains(t, void("nothing"), `entry "nothing": no entry of that name in the journal`)
	require.ErrorContains(t, void("0712-1640-lift-tub-3"), "there is no lot "+usual, "320 g of it were used")
	assert.Len(t, s[2031], 2)
	require.NoError(t, void("0713-1200-use-tub-3.yaml"))
	assert.Contains(t, onHand(t, l, "2031-07-13"), "tub-3/20-45-scabby=820/820")
	require.ErrorContains(t, void("0713-1200-use-tub-3"), "struck out or corrected already")
	require.NoError(t, void("journal/2031/0712-1640-lift-tub-3.yaml"))
	assert.Empty(t, onHand(t, l, "2031-07-13"))
	require.ErrorContains(t, void(s[2031][2].Head().File), "strikes out another entry; that cannot be undone")
}

func TestMoveIsWritten(t *testing.T) {
	l, s := ledgerOf(usualLift(), moveOf(KindUse, "2031-07-13 12:00", usual, "300 g"))
	m := &Move{To: KindGive, Whom: "neighbours"}
	moved, err := l.Move(context.Background(), m, "tub-3/20-45", day("2031-07-12 18:00"))
	require.NoError(t, err)
	assert.Equal(t, usual, m.Lot)
	assert.Equal(t, "520", moved.Grams.String(), "all there is, less what leaves it later")
	assert.Equal(t, "0", moved.Left.String())
	assert.Equal(t, "520", moved.From.Weight.String(), "the lot as it was before")
	assert.Equal(t, day("2031-07-12 18:00"), m.At)
	assert.Len(t, s[2031], 3)
	assert.NotContains(t, onHand(t, l, "2031-07-13"), "20-45-scabby")
}

func TestMovesThatCannotBe(t *testing.T) {
	for name, row := range map[string]struct {
		to, lot, weight, at string
		field, says         string
	}{
		"no such lot":          {KindUse, "bed-9", "", "", "lot", "nothing of that name is on hand"},
		"more than one lot":    {KindUse, "tub-3", "", "", "lot", "more than one lot goes by that name"},
		"green to the kitchen": {KindUse, "tub-3/ungraded-green", "", "", "lot", "green: it never goes to the kitchen"},
		"more than there is":   {KindUse, usual, "821 g", "", "weight", "more than the 820 g there is of tub-3/20-45-scabby"},
		"nothing":              {KindUse, usual, "0 g", "", "weight", "no weight to take"},
		"still to come":        {KindUse, usual, "", "2031-07-14", "at", "still to come, by this machine's clock (2031-07-13 00:00)"},
	} {
		l, s := ledgerOf(usualLift())
		m := &Move{To: row.to}
		if row.weight != "" {
			m.Weight = units.MustParse(row.weight)
		}
		if row.at != "" {
			m.At = day(row.at)
		}
		_, err := l.Move(context.Background(), m, row.lot, day("2031-07-13"))
		var wrong *units.FieldError
		require.ErrorAs(t, err, &wrong, name)
		assert.Equal(t, row.field, wrong.Field, name)
		assert.Equal(t, row.says, wrong.Problem, name)
		assert.NotEmpty(t, wrong.Accepted, name)
		assert.Len(t, s[2031], 1, name)
	}
	l, _ := ledgerOf(usualLift())
	_, err := l.Move(context.Background(), &Move{To: KindCompost}, "tub-3/ungraded-green", day("2031-07-13"))
	require.NoError(t, err, "the heap takes what the kitchen may not have")
	_, err = l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("820 g")}, usual, day("2031-07-13"))
	require.NoError(t, err, "to the last gram")
}

// A corrected move draws on what it took before.
func TestMoveInPlaceOfAnother(t *testing.T) {
	l, s := ledgerOf(usualLift(), liftOf("tub-3", "2030-09-01 10:00", "500 g"), moveOf(KindUse, "2031-07-13 12:00", usual, "800 g"))
	m := &Move{To: KindUse, Weight: units.MustParse("820 g")}
	m.Replaces = "0713-1200-use-tub-3"
	moved, err := l.Move(context.Background(), m, usual, day("2031-07-20"))
	require.NoError(t, err)
	assert.Equal(t, day("2031-07-13 12:00"), m.At, "of the moment it corrects")
	assert.Equal(t, "0", moved.Left.String())
	require.Len(t, s[2031], 3)
	other := &Move{To: KindUse, Weight: units.MustParse("1 g")}
	other.Replaces = m.Stem()
	_, err = l.Move(context.Background(), other, "tub-3/2030-0901-1000/ungraded-sound", day("2031-07-20"))
	require.ErrorContains(t, err, `replaces "`+m.Stem()+`": of another season's lot`)
	give := &Move{To: KindGive}
	give.Replaces = m.Stem()
	_, err = l.Move(context.Background(), give, usual, day("2031-07-20"))
	require.ErrorContains(t, err, "no give entry of that name in the journal")
}

// What was stored in autumn is drawn on in January, under the season it was
// lifted in.
func TestMoveOverNewYear(t *testing.T) {
	l, s := ledgerOf(liftOf("bed-1", "2031-10-12 10:00", "1 kg"), moveOf(KindStore, "2031-10-12 11:00", "bed-1/2031-1012-1000/ungraded-sound", "1 kg"))
	_, err := l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("200 g")}, "bed-1", day("2032-01-05"))
	require.NoError(t, err)
	assert.Len(t, s[2031], 3)
	assert.Empty(t, s[2032])
	assert.Contains(t, onHand(t, l, "2032-01-05"), "bed-1/ungraded-sound=800/800")
}

// One ledger may be written to again and again: it knows what it wrote.
func TestALedgerKnowsWhatItWrote(t *testing.T) {
	l, _ := ledgerOf()
	_, err := l.Lift(context.Background(), newLift("tub-3", "1 kg"), evening)
	require.NoError(t, err)
	for range 4 {
		_, err = l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("250 g")}, "tub-3", evening)
		require.NoError(t, err)
	}
	_, err = l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("250 g")}, "tub-3", evening)
	require.ErrorContains(t, err, "nothing of that name is on hand")
}

// A season that cannot be read keeps corrections and moves out, which rest on
// it; but no lift.
func TestWhatADamagedSeasonKeepsOut(t *testing.T) {
	_, s := ledgerOf(usualLift())
	open := func() *Ledger { return NewLedger(damaged{s, 2031, false}, plot(), false) }
	replacing := newLift("tub-3", "1 kg")
	replacing.Replaces = "x"
	_, err := open().Lift(context.Background(), replacing, evening)
	require.ErrorContains(t, err, "torn.yaml")
	_, err = open().Move(context.Background(), &Move{To: KindUse}, usual, evening)
	require.ErrorContains(t, err, "torn.yaml")
	_, err = open().Void(context.Background(), "x", "", evening)
	require.ErrorContains(t, err, "torn.yaml")
	_, err = open().Fits(context.Background(), &BatchEvent{Event: KindChilled, Name: "mash"}, evening)
	require.ErrorContains(t, err, "torn.yaml")
	_, err = open().Lift(context.Background(), newLift("bed-1", "1 kg"), evening)
	require.NoError(t, err)
}

// fullDisk is a shelf nothing can be put on, and lost one that cannot be seen.
type (
	fullDisk struct{ shelf }
	lost     struct{ shelf }
)

var errDisk = errors.New("the disk is full")

func (fullDisk) Write(Entry) (string, error) { return "", errDisk }
func (lost) Seasons() ([]int, error)         { return nil, errDisk }

// What the journal refuses is told, and the entry is not in the ledger.
func TestWhatTheJournalRefuses(t *testing.T) {
	_, s := ledgerOf(usualLift())
	for _, journal := range []Journal{fullDisk{s}, lost{s}} {
		l := NewLedger(journal, plot(), false)
		require.NoError(t, l.Read(context.Background(), evening))
		replacing := newLift("tub-3", "2 kg")
		replacing.Replaces, replacing.Grades = "0712-1640-lift-tub-3", usualLift().Grades
		_, err := l.Lift(context.Background(), replacing, evening)
		require.ErrorIs(t, err, errDisk)
		v, err := l.Void(context.Background(), "0712-1640-lift-tub-3", "", evening)
		require.ErrorIs(t, err, errDisk)
		assert.True(t, v == nil || v.File == "")
		assert.Len(t, l.Entries, 1)
	}
	l := NewLedger(fullDisk{s}, plot(), false)
	_, err := l.Move(context.Background(), &Move{To: KindUse}, usual, evening)
	require.ErrorIs(t, err, errDisk)
	assert.Len(t, l.Entries, 1)
	require.ErrorIs(t, NewLedger(lost{s}, plot(), false).CheckClock(context.Background(), evening), errDisk)
}

// A move out of a journal at odds with itself is made beside what
// was left out.
func TestMoveBesideContradictions(t *testing.T) {
	odd := moveOf(KindUse, "2031-07-12 17:00", "bed-1/2031-0712-0900/ungraded-sound", "10 g")
	l, _ := ledgerOf(usualLift(), odd)
	moved, err := l.Move(context.Background(), &Move{To: KindUse}, usual, evening)
	require.NoError(t, err)
	require.Len(t, moved.Warnings, 1)
	assert.Equal(t, odd.File, moved.Warnings[0].(Waiting).File)
	assert.Len(t, l.Entries, 3, "left out of the account, not of the journal")
}

// A lot goes by its ID, its short name, or a beginning no other shares; an
// exact name comes before a beginning.
func TestFindLot(t *testing.T) {
	list, err := stockOf(plot(), []Entry{usualLift(), liftOf("bed-1", "2031-07-12 09:00", "1 kg", "300 g sound")}, day("2031-07-12"))
	require.NoError(t, err)
	for name, want := range map[string]string{
		usual:                     usual,
		"tub-3/20-45-scabby":      usual,
		"tub-3/20-":               usual,
		"tub-3/2031-0712-1640/20": usual,
		"bed-1/ungraded-sound":    "bed-1/2031-0712-0900/ungraded-sound",
	} {
		lot, err := list.Find(name)
		require.NoError(t, err, name)
		assert.Equal(t, want, lot.ID, name)
	}
	_, err = list.Find("bed-1")
	require.ErrorContains(t, err, "more than one lot")
	_, err = StockList{}.Find("bed-1")
	var wrong *units.FieldError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "(there is nothing on hand)", wrong.Accepted)
}

// Every figure of an answer says where it comes from, once.
func TestReasons(t *testing.T) {
	l, _ := ledgerOf()
	lift := usualLift()
	lift.File = ""
	logged, err := l.Lift(context.Background(), lift, evening)
	require.NoError(t, err)
	figures := map[string]string{}
	for _, r := range logged.Reasons() {
		require.NotContains(t, figures, r.Figure)
		require.NotEmpty(t, r.Source, r.Figure)
		require.NotEmpty(t, r.KnownBy, r.Figure)
		figures[r.Figure] = r.Value
	}
	assert.Equal(t, "1820 g", figures["net weight"])
	assert.Equal(t, "85 % after trimming", figures["damaged: to the kitchen"])
	assert.Equal(t, "nothing", figures["green: to the kitchen"])
	assert.Equal(t, "2031-07-12 16:40 +00:00", figures["when"])
	assert.Contains(t, figures, "second early potato, sound: keeps raw")
	assert.Contains(t, figures, "second early potato, damaged: keeps raw")

	moved, err := l.Move(context.Background(), &Move{To: KindUse, Weight: units.MustParse("20 g")}, "tub-3/45-65", evening)
	require.NoError(t, err)
	assert.Equal(t, "20 g", moved.Reasons()[0].Value)
	assert.Contains(t, moved.Reasons()[0].Source, "700 g")
	note := &Note{Dish: "Mash"}
	require.NoError(t, l.Write(note))
	assert.Equal(t, "Mash", note.Reasons()[0].Value)
	v, err := l.Void(context.Background(), moved.Stem(), "", evening)
	require.NoError(t, err)
	assert.Equal(t, moved.File, v.Reasons()[0].Value)

	require.NoError(t, l.Read(context.Background(), day("2031-07-12")))
	account, err := l.Account()
	require.NoError(t, err)
	assert.Len(t, account.Stock().Reasons(), 3, "sound, scabby, damaged; green keeps not at all")
	tally := account.Tally(2031)
	require.Len(t, tally.Reasons(), 2)
	assert.Equal(t, "tub-3: usual yield of potato", tally.Reasons()[1].Figure)
	assert.Equal(t, "40-80 g a litre", tally.Reasons()[1].Value)
	ready := readyOn(plot()[:1], "2031-07-12")
	assert.Equal(t, "second early potato: fit to lift", ready.Reasons()[0].Figure)
	assert.Equal(t, len(ready.List[0].Crop.Signs)+2, len(ready.Reasons()))
}
