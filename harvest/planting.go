package harvest

import (
	"slices"
	"sort"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"trencher/units"
)

// Planting is one tub or bed with one crop in it, for one season. The zero
// value is no planting.
type Planting struct {
	ID         string
	Crop       string // by its table name where the table has it: "potato"
	Variety    string
	Class      string    // potatoes: first early ... late maincrop
	Planted    time.Time // the day it was planted, or sown
	Sown       bool      // that day is of sowing
	SeedCount  int
	SeedWeight units.Quantity
	Tub        units.Quantity // volume of compost
	Bed        units.Quantity // area
	Texture    string         // waxy, floury, or "" when not known
	Feed       string
	Mulch      string
	Notes      string
	Place      Place // where it stands in plantings.yaml
}

// Textures lists the textures a planting may state.
func Textures() []string { return []string{"waxy", "floury"} }

// LongestID is how many letters the name of a planting may have. It becomes
// part of a file's name, which some disks hold to 255 bytes.
const LongestID = 40

// IsID tells whether text can name a planting: at most [LongestID] letters,
// digits, - _ and dots, since it becomes part of file names and of lot names.
func IsID(text string) bool {
	for at, r := range text {
		if !unicode.IsLetter(r) && !unicode.IsNumber(r) && (at == 0 || !strings.ContainsRune("_.-", r)) {
			return false
		}
	}
	return text != "" && !strings.Contains(text, "..") && utf8.RuneCountInString(text) <= LongestID
}

// Standing finds the planting called id that stood on the given day: the last
// one planted on or before it, so that a tub may keep its name from year to
// year. known tells whether any planting is called id at all.
func Standing(plantings []Planting, id string, day time.Time) (p *Planting, known bool) {
	for i := range plantings {
		if plantings[i].ID != id {
			continue
		}
		known = true
		if dayOf(plantings[i].Planted).After(dayOf(day)) {
			continue
		}
		if p == nil || plantings[i].Planted.After(p.Planted) {
			p = &plantings[i]
		}
	}
	return p, known
}

// planted are plantings to be found by name, many times over.
type planted struct {
	byID  map[string][]*Planting // by the day they were planted; of one day the first
	names string                 // as an error lists them
}

func plantedOf(plantings []Planting) planted {
	all := planted{map[string][]*Planting{}, orNone(IDs(plantings))}
	for i := range plantings {
		all.byID[plantings[i].ID] = append(all.byID[plantings[i].ID], &plantings[i])
	}
	for id, same := range all.byID {
		slices.SortStableFunc(same, func(a, b *Planting) int { return a.Planted.Compare(b.Planted) })
		all.byID[id] = slices.CompactFunc(same, func(a, b *Planting) bool { return a.Planted.Equal(b.Planted) })
	}
	return all
}

// standing is as [Standing] has it.
func (a planted) standing(id string, day time.Time) (p *Planting, known bool) {
	same, known := a.byID[id]
	later := sort.Search(len(same), func(i int) bool { return dayOf(same[i].Planted).After(dayOf(day)) })
	if later == 0 {
		return nil, known
	}
	return same[later-1], known
}

// IDs lists the names of the plantings in file order, each once.
func IDs(plantings []Planting) []string {
	var ids []string
	seen := map[string]bool{}
	for _, p := range plantings {
		if !seen[p.ID] {
			seen[p.ID] = true
			ids = append(ids, p.ID)
		}
	}
	return ids
}

// FindPlanting finds the id that a name means, as [units.MatchNames] reads it.
// Its error is a [units.FieldError] of planting, which lists those there are.
func FindPlanting(plantings []Planting, name string) (id string, err error) {
	ids := IDs(plantings)
	if slices.Contains(ids, name) {
		return name, nil
	}
	found := units.MatchNames(name, ids)
	switch len(found) {
	case 0:
		return "", units.WrongField("planting", name, "not in plantings.yaml", "one of "+strings.Join(ids, ", "))
	case 1:
		return ids[found[0]], nil
	}
	var begin []string
	for _, i := range found {
		begin = append(begin, ids[i])
	}
	return "", units.WrongField("planting", name, "more than one begins so", "one of "+strings.Join(begin, ", "))
}

// dayOf is the civil day of a time, in the time's own zone, as midnight UTC.
func dayOf(t time.Time) time.Time {
	year, month, day := t.Date()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// CropsOf lists what is planted, crop by crop as plantings.yaml names them.
func CropsOf(plantings []Planting) (crops []string) {
	for _, p := range plantings {
		crops = append(crops, p.Crop)
	}
	return crops
}
