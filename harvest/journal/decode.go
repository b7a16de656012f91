package journal

import (
	"bytes"
	"fmt"
	"path"
	"strconv"
	"time"

	"trencher/harvest"
	"trencher/units/strict"
)

// entryKeys are the keys of the kinds of entry.
var entryKeys = withCommon(map[string][]string{
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
})

// withCommon adds the keys that every entry has.
func withCommon(keys map[string][]string) map[string][]string {
	for kind, own := range keys {
		keys[kind] = append([]string{"kind", "at", "replaces", "by", "logged", "form"}, own...)
	}
	return keys
}

// decodeEntry reads one entry. season is the year of the folder it lies in. It
// returns strict.Errors naming everything that is wrong in the file.
func decodeEntry(source Source, season int, o Options) (harvest.Entry, error) {
	if err := broken(source); err != nil {
		return nil, strict.Errors{err}
	}
	r := strict.Parse(source.File, source.Data)
	defer r.Done()
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
	text := source.Data
	at := func(offset int, problem, accepted string) *strict.Error {
		return &strict.Error{File: source.File, Line: 1 + bytes.Count(text[:offset], []byte("\n")), Column: 1, Problem: problem, Accepted: accepted}
	}
	if second := bytes.LastIndex(text, []byte("\n"+opening)); second >= 0 && bytes.Contains(text[:second], []byte(closing)) {
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
	m := d.root.AnyMap()
	kind := m.Require("kind").Choice(harvest.Kinds()...)
	keys, ok := entryKeys[kind]
	if !ok {
		return nil
	}
	d.m = m.Only(keys...)
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
	there := make([]harvest.KeyPlace, 1, 6)
	there[0] = harvest.KeyPlace{Spot: spotOf(d.root)}
	for _, key := range [...]string{"at", "planting", "lot", "replaces", "voids"} {
		if d.m.Has(key) {
			there = append(there, harvest.KeyPlace{Key: key, Spot: spotOf(d.m.At(key))})
		}
	}
	return harvest.PlacesAt(there...)
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
