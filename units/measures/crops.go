package measures

import (
	"cmp"
	_ "embed" // the table
	"fmt"
	"slices"
	"strconv"
	"strings"
	"trencher/units/sorted"
)

// crops.csv holds one crop a line: its id, by which every other table refers to
// it; its name; its plural, where no rule makes it; the other names it goes by;
// and the id of the crop it counts as in the kitchen, where that is another:
// dwarf and climbing French beans are sown apart and cooked as French beans.
// Where a name could mean several of those that count as one, the first in the
// table is meant. Names are common usage, no source.
//
// library.go is its rows (cropTable), and crops.sorted finds the number of a row by
// its folded names.
//
//go:embed crops.sorted
var cropNames sorted.Table

// Crop is one crop of the garden with all its names. The figures on it stand in
// other tables, which refer to it by id; another crop is one row here and its
// figures there.
type Crop struct {
	ID    string   // "french-bean"
	Name  string   // "French bean"
	Names []string // what else it is called: "green bean"; plurals go without saying

	kitchen string // the id of what it counts as in the kitchen
}

// CropNamed finds the crop a text names, as a whole: by any of its names, in
// capitals or small letters, with accents or without, singular or plural. A
// longer name that only holds a crop's name ("potato salad") is not that crop.
func CropNamed(text string) (Crop, bool) {
	key := lookupKey(text)
	row, ok := cropNames.Find(key)
	if !ok {
		for one := range singularsOf(key) {
			if row, ok = cropNames.Find(one); ok {
				break
			}
		}
	}
	if !ok {
		return Crop{}, false
	}
	at, err := strconv.Atoi(row)
	if err != nil {
		panic("crops.sorted: " + err.Error())
	}
	return cropTable[at], true
}

// longestCrop is of how many words the longest name of a crop is.
const longestCrop = 3

// CropAt is how many words the name of a crop takes at the beginning of some that are
// folded; 0 where they begin with none.
func CropAt(words []string) int {
	words = words[:min(longestCrop, len(words))]
	otherwise := func(word string) bool { return strings.HasSuffix(word, "s") || strings.Contains(word, "-") }
	if !slices.ContainsFunc(words, otherwise) { // they stand in the table as they are
		_, taken := cropNames.Longest(words)
		return taken
	}
	for n := len(words); n > 0; n-- {
		if _, ok := CropNamed(strings.Join(words[:n], " ")); ok {
			return n
		}
	}
	return 0
}

// CropID is the id of the crop a text names; a crop that the table does not
// know comes back as [Fold] writes it, so that two of one name still meet.
func CropID(text string) string {
	if crop, ok := CropNamed(text); ok {
		return crop.ID
	}
	return Fold(text)
}

// CropByID finds a crop by its id, as the tables of figures refer to it.
func CropByID(id string) (Crop, bool) {
	at := slices.IndexFunc(cropTable, func(c Crop) bool { return c.ID == id })
	if at < 0 {
		return Crop{}, false
	}
	return cropTable[at], true
}

// MustCrop is [CropByID] for the embedded tables of figures: an id that is not
// in the table is a bug of ours, and it panics.
func MustCrop(id string) Crop {
	crop, ok := CropByID(id)
	if !ok {
		panic(fmt.Sprintf("no crop has the id %q", id))
	}
	return crop
}

// Crops lists every crop, in the table's order.
func Crops() []Crop { return slices.Clone(cropTable) }

// InKitchen is the crop it counts as once it is lifted: a dwarf French bean is
// a French bean, and goes into the same dishes. Mostly it is the crop itself.
func (c Crop) InKitchen() Crop {
	if kitchen, ok := CropByID(c.kitchen); ok {
		return kitchen
	}
	return c
}

// Kin lists the crop and then the others that count as the same in the kitchen,
// in the table's order: where figures on the one are missing, those on the next
// are the nearest.
func (c Crop) Kin() []Crop {
	kin := []Crop{c}
	for _, other := range cropTable {
		if other.ID != c.ID && other.countsAs() == c.countsAs() {
			kin = append(kin, other)
		}
	}
	return kin
}

// countsAs is the id of what it counts as in the kitchen.
func (c Crop) countsAs() string { return cmp.Or(c.kitchen, c.ID) }
