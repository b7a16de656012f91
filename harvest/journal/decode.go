package journal

import (
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/strict"
)

// Keys of the kinds of entry, besides those every entry has.
var entryKeys = map[string][]string{
	harvest.KindLift:      {"planting", "weighings", "grades", "mothers", "soil", "left", "where", "called", "says"},
	harvest.KindUse:       {"lot", "weight", "dish"},
	harvest.KindGive:      {"lot", "weight", "whom"},
	harvest.KindCompost:   {"lot", "weight", "because"},
	harvest.KindStore:     {"lot", "weight", "where", "air"},
	harvest.KindReweighed: {"lot", "weight", "rotten", "where", "air"},
	harvest.KindCooked:    {"batch", "food", "also", "dish", "plan", "amount", "says"},
	harvest.KindChilled:   {"batch", "says"},
	harvest.KindOut:       {"batch", "until", "air", "says"},
	harvest.KindReheated:  {"batch", "says"},
	harvest.KindEaten:     {"batch", "amount", "says"},
	harvest.KindBinned:    {"batch", "amount", "says"},
	harvest.KindNote:      {"dish", "says"},
	harvest.KindSteamed:   {"crop", "texture", "cut", "until", "said", "minutes", "load", "start", "altitude", "power", "tier"},
	harvest.KindVoid:      {"voids", "because"},
	harvest.KindPlan:      {"plan", "stock", "makes", "uses", "asked"},
	harvest.KindStep:      {"plan", "step", "says"},
}

var commonKeys = []string{"kind", "at", "replaces", "by", "logged", "form"}

// decodeEntry reads one entry. season is the year of the folder it lies in. It
// returns strict.Errors naming everything that is wrong in the file.
func decodeEntry(source Source, season int, o Options) (harvest.Entry, error) {
	if err := broken(source); err != nil {
		return nil, strict.Errors{err}
	}
	r := strict.Parse(source.File, source.Data)
	d := decoder{Options: o, season: season, reader: r, root: r.Root()}
	if d.Zone == nil {
		d.Zone = time.UTC
	}
	e := d.entry()
	if err := r.Err(); err != nil {
		return nil, err
	}
	return e, nil
}

// broken finds what copying and crashes do to a written entry: cut short, or
// run together with another.
func broken(source Source) *strict.Error {
	text := string(source.Data)
	at := func(offset int, problem, accepted string) *strict.Error {
		return &strict.Error{File: source.File, Line: 1 + strings.Count(text[:offset], "\n"), Column: 1, Problem: problem, Accepted: accepted}
	}
	if second := strings.LastIndex(text, "\n"+opening); second >= 0 && strings.Contains(text[:second], closing) {
		return at(second+1, "a second entry begins here", "each entry in a file of its own")
	}
	if torn(text) {
		return at(len(text), "the entry is cut short: its closing line is missing",
			`what is missing and a last line "...", or move the file out of the journal`)
	}
	return nil
}

type decoder struct {
	Options
	season int
	reader *strict.Reader
	root   strict.Node
	m      strict.Map
}

func (d *decoder) entry() harvest.Entry {
	kind := d.root.AnyMap().Require("kind").Choice(harvest.Kinds()...)
	keys, ok := entryKeys[kind]
	if !ok {
		return nil
	}
	d.m = d.root.Map(append(commonKeys, keys...)...)
	var e harvest.Entry
	switch kind {
	case harvest.KindLift:
		e = d.lift()
	case harvest.KindUse, harvest.KindGive, harvest.KindCompost, harvest.KindStore:
		e = d.move(kind)
	case harvest.KindPlan:
		e = d.planned()
	case harvest.KindReweighed:
		e = d.reweighed()
	case harvest.KindNote:
		e = &harvest.Note{Dish: d.m.Require("dish").Text(), Says: d.m.Require("says").Text()}
	case harvest.KindSteamed:
		e = d.steamed()
	case harvest.KindStep:
		e = &harvest.Told{Plan: d.m.Require("plan").Text(), Step: d.m.At("step").Text(), What: harvest.Telling(d.m.Require("says").Choice("done", "not-yet", "over", "five-late"))}
	case harvest.KindVoid:
		e = &harvest.Void{Voids: d.m.Require("voids").Text(), Reason: d.m.At("because").Text()}
	default:
		e = d.batch(kind)
	}
	d.head(e)
	return e
}

// head reads what every entry has, and keeps the places later checks name.
func (d *decoder) head(e harvest.Entry) {
	h := e.Head()
	h.At = d.m.Require("at").Time(d.Zone)
	h.Replaces = d.m.At("replaces").Text()
	h.By = d.m.At("by").Text()
	h.Form = d.m.At("form").Text()
	if d.m.Has("logged") {
		h.Logged = d.m.At("logged").Time(d.Zone)
	}
	h.File = placeOf(d.root).File
	h.Places = d.places()
	d.checkSeason(e)
}

// places are where the entry stands, and the keys of it that an error found
// later may be about.
func (d *decoder) places() harvest.Places {
	there := make(harvest.Places, 0, 8)
	there = append(there, harvest.KeyPlace{Spot: spotOf(d.root)})
	for _, key := range [...]string{"at", "planting", "lot", "replaces", "voids"} {
		if d.m.Has(key) {
			there = append(there, harvest.KeyPlace{Key: key, Spot: spotOf(d.m.At(key))})
		}
	}
	return slices.Clip(slices.Clone(there))
}

func spotOf(n strict.Node) harvest.Spot {
	_, line, column := n.Place()
	return harvest.Spot{Line: line, Column: column}
}

// checkSeason keeps an entry in the folder of the season it belongs to: a lift
// under its own year, what leaves a lot under the year the lot was lifted.
func (d *decoder) checkSeason(e harvest.Entry) {
	if d.season == 0 || e.When().IsZero() {
		return
	}
	year := seasonOf(e)
	if lot := harvest.LotOf(e); lot != "" && !d.isLot(d.m.At("lot"), lot) {
		return
	}
	if _, isVoid := e.(*harvest.Void); isVoid || year == d.season {
		return
	}
	d.m.At("at").Fail(fmt.Sprintf("an entry of season %d lies in the folder of %d", year, d.season),
		fmt.Sprintf("the true date, or move the file to journal/%d", year))
}

// isLot makes sure that a text can be the ID of a lot; a missing one is told
// elsewhere.
func (d *decoder) isLot(n strict.Node, lot string) bool {
	if _, ok := harvest.SeasonOf(lot); ok || lot == "" {
		return true
	}
	n.Fail("no lot's name", "a lot's id, such as tub-3/2031-0712-1640/20-45-scabby")
	return false
}

// seasonOf is the year an entry is filed under: of the lot it takes from, of
// the entry it voids, else its own.
func seasonOf(e harvest.Entry) int {
	switch e := e.(type) {
	case *harvest.Move, *harvest.Reweighed:
		if year, ok := harvest.SeasonOf(harvest.LotOf(e)); ok {
			return year
		}
	case *harvest.Planned:
		return e.Season()
	case *harvest.Void:
		if year, err := strconv.Atoi(path.Base(path.Dir(e.Voids))); err == nil {
			return year
		}
	}
	return e.When().Year()
}

func (d *decoder) lift() *harvest.Lift {
	l := &harvest.Lift{
		Planting: d.m.Require("planting").Text(),
		Mothers:  d.weight(d.m.At("mothers")),
		Soil:     d.weight(d.m.At("soil")),
		Where:    d.m.At("where").Text(),
		Called:   d.m.At("called").Text(),
		Says:     d.m.At("says").Text(),
	}
	if d.m.Has("called") && !harvest.IsID(l.Called) {
		d.m.At("called").Fail("no word for a lot's name", "letters and digits, such as 19jul")
	}
	if d.m.Has("left") {
		l.Left = d.m.At("left").Choice(harvest.LeftSome, harvest.LeftNone)
	}
	nodes := map[string]strict.Node{"": d.root, "weighings": d.m.At("weighings"), "grades": d.m.At("grades")}
	for i, n := range d.m.Require("weighings").List() {
		w := n.Map("gross", "tare")
		key := fmt.Sprintf("weighings[%d]", i)
		nodes[key], nodes[key+".gross"], nodes[key+".tare"] = n, w.At("gross"), w.At("tare")
		l.Weighings = append(l.Weighings, harvest.Weighing{Gross: d.weight(w.Require("gross")), Tare: d.weight(w.At("tare"))})
	}
	for i, n := range d.m.At("grades").List() {
		key := fmt.Sprintf("grades[%d]", i)
		g := n.Map("sizes", "weight", "count", "condition")
		nodes[key], nodes[key+".weight"], nodes[key+".count"] = n, g.At("weight"), g.At("count")
		l.Grades = append(l.Grades, d.grade(g))
	}
	d.report(l, nodes)
	return l
}

func (d *decoder) grade(g strict.Map) harvest.Grade {
	grade := harvest.Grade{Weight: d.weight(g.Require("weight")), Condition: harvest.Sound}
	if g.Has("count") {
		grade.Count = g.At("count").Whole(1, 100_000)
	}
	if g.Has("condition") {
		if text := g.At("condition").Text(); text != "" {
			condition, err := harvest.ParseCondition(text)
			if err != nil {
				g.At("condition").Fail("not a condition known here", harvest.ConditionNames())
			}
			grade.Condition = condition
		}
	}
	if g.Has("sizes") {
		if text := g.At("sizes").Text(); text != "" {
			band, err := units.ParseBand(text)
			if err != nil {
				g.At("sizes").Fail(err.Problem, err.Accepted)
			}
			grade.Sizes = band
		}
	}
	return grade
}

// report puts the rules a lift breaks at their places. A lift whose parts could
// not be read is not judged as a whole.
func (d *decoder) report(l *harvest.Lift, nodes map[string]strict.Node) {
	if d.reader.Err() != nil {
		return
	}
	for _, p := range l.Problems() {
		n, ok := nodes[p.Key]
		if !ok {
			n = d.m.At(p.Key)
		}
		if !n.IsValid() {
			n = d.root
		}
		n.Fail(p.Text, p.Accepted)
	}
}

func (d *decoder) move(kind string) *harvest.Move {
	m := &harvest.Move{
		To:     kind,
		Lot:    d.m.Require("lot").Text(),
		Weight: d.used(d.m.Require("weight")),
		Dish:   d.m.At("dish").Text(),
		Whom:   d.m.At("whom").Text(),
		Where:  d.m.At("where").Text(),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
		Reason: d.m.At("because").Text(),
	}
	return m
}

// planned reads a plan, and where each of its uses stands.
func (d *decoder) planned() *harvest.Planned {
	p := &harvest.Planned{ID: d.m.Require("plan").Text(), Stock: d.m.At("stock").Text()}
	for _, n := range d.m.At("makes").List() {
		m := n.Map("dish", "portions")
		p.Makes = append(p.Makes, harvest.Making{Dish: m.Require("dish").Text(), Portions: m.Require("portions").Whole(1, 100_000)})
	}
	for _, n := range d.m.Require("uses").List() {
		u := n.Map("lot", "weight", "dish")
		use := harvest.Use{Lot: u.Require("lot").Text(), Weight: d.used(u.Require("weight")), Dish: u.At("dish").Text()}
		d.isLot(u.At("lot"), use.Lot)
		p.Uses, p.Spots = append(p.Uses, use), append(p.Spots, spotOf(n))
	}
	for _, n := range d.m.At("asked").List() {
		a := n.Map("field", "says")
		p.Asked = append(p.Asked, harvest.Asked{Field: a.Require("field").Text(), Says: a.Require("says").Text()})
	}
	return p
}

// used is a weight that left a lot.
func (d *decoder) used(n strict.Node) units.Quantity {
	w := d.weight(n)
	if w.IsValid() && w.Sign() == 0 {
		n.Fail("a weight of nothing", "the weight that left the lot, such as 800 g")
	}
	return w
}

func (d *decoder) reweighed() *harvest.Reweighed {
	return &harvest.Reweighed{
		Lot:    d.m.Require("lot").Text(),
		Weight: d.weight(d.m.Require("weight")),
		Rotten: d.weight(d.m.At("rotten")),
		Where:  d.m.At("where").Text(),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
	}
}

func (d *decoder) batch(kind string) *harvest.BatchEvent {
	b := &harvest.BatchEvent{
		Event:  kind,
		Name:   d.m.Require("batch").Text(),
		Food:   d.m.At("food").Text(),
		Also:   listed(d.m.At("also").Text()),
		Dish:   d.m.At("dish").Text(),
		Plan:   d.m.At("plan").Text(),
		Amount: d.m.At("amount").Quantity(d.System, units.Mass, units.Volume, units.Count),
		Air:    d.m.At("air").Quantity(d.System, units.Temperature),
		Says:   d.m.At("says").Text(),
	}
	if d.m.Has("until") {
		b.Until = d.m.At("until").Time(d.Zone)
		if at := d.m.At("at").Time(d.Zone); !b.Until.IsZero() && b.Until.Before(at) {
			d.m.At("until").Fail("before the time it came out", "the moment it went back into the fridge")
		}
	}
	return b
}

// listed parts a text at its commas; none of an empty one.
func listed(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' })
}

func (d *decoder) steamed() *harvest.Steamed {
	s := &harvest.Steamed{
		Crop:  harvest.CropName(d.m.Require("crop").Text()),
		Cut:   d.m.Require("cut").Text(),
		Until: d.m.Require("until").Choice("just-tender", "tender", "soft"),
	}
	if d.m.Has("texture") {
		s.Texture = d.m.At("texture").Choice(harvest.Textures()...)
	}
	minutes := d.m.Require("minutes").Decimal()
	if minutes.Sign() <= 0 || minutes.IntPart() > 600 {
		d.m.At("minutes").Fail("not a steaming time", "minutes from full steam, above 0 and up to 600")
	}
	s.Minutes = minutes.InexactFloat64()
	if d.m.Has("load") {
		s.Load = d.m.At("load").Quantity(d.System, units.Mass)
		if s.Load.IsValid() && (s.Load.IsRange() || s.Load.Sign() <= 0) {
			d.m.At("load").Fail("not a load", "the weight in the steamer at once, such as 600 g")
		}
	}
	d.madeUnder(s)
	return s
}

// madeUnder reads what a knife test says of how it was made.
func (d *decoder) madeUnder(s *harvest.Steamed) {
	if d.m.Has("said") {
		s.Said = d.m.At("said").Choice("not-yet", "over")
	}
	for _, one := range []struct {
		key       string
		dimension units.Dimension
		low, high float64
		unit      units.Unit
		accepted  string
		into      *units.Quantity
	}{
		{"start", units.Temperature, 0, 60, units.Celsius, "how warm the pieces went in, 0 to 60 C", &s.Start},
		{"altitude", units.Length, 0, 5500, units.Metre, "the height above the sea, 0 to 5500 m", &s.Altitude},
		{"power", units.Power, 50, 10000, units.Watt, "the heat that becomes steam, 50 to 10000 W", &s.Power},
	} {
		if !d.m.Has(one.key) {
			continue
		}
		q := d.m.At(one.key).Quantity(d.System, one.dimension)
		if !q.IsValid() {
			continue
		}
		if x, err := q.Float64(one.unit); err != nil || q.IsRange() || x < one.low || x > one.high {
			d.m.At(one.key).Fail("out of reach", one.accepted)
			continue
		}
		*one.into = q
	}
	if d.m.Has("tier") {
		s.Tier = d.m.At("tier").Whole(1, 6)
	}
}

// weight reads one weight with a finite number of decimals.
func (d *decoder) weight(n strict.Node) units.Quantity {
	q := n.Quantity(d.System, units.Mass)
	if _, ok := harvest.Grams(q); !ok {
		n.Fail("not one weight a scale can show", "one weight in kg, g, lb or oz")
		return units.Quantity{}
	}
	return q
}
