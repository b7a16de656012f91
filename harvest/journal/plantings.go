package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"slices"
	"strings"
	"time"

	"trencher/harvest"
	"trencher/units"
	"trencher/units/pattern"
	"trencher/units/strict"
)

var plantingKeys = []string{"id", "crop", "variety", "class", "planted", "sown", "seed", "tub", "bed",
	"texture", "feed", "mulch", "notes"}

// Plantings reads plantings.yaml. A plot without one, or with nothing but remarks
// in it, has no plantings. It returns strict.Errors naming everything that is wrong
// in the file.
func (f *Folder) Plantings(system units.System) ([]harvest.Planting, error) {
	source, err := f.plantingsFile()
	if err != nil {
		return nil, err
	}
	return plantingsIn(source, system)
}

const plantingsFile = "plantings.yaml"

// plantingsFile reads the file; a missing one is empty.
func (f *Folder) plantingsFile() (Source, error) {
	if _, err := fs.Stat(f.fsys, plantingsFile); errors.Is(err, fs.ErrNotExist) {
		return Source{File: plantingsFile}, nil
	}
	return f.read(plantingsFile)
}

func plantingsIn(source Source, system units.System) ([]harvest.Planting, error) {
	if len(bytes.TrimSpace(withoutRemarks(source.Data))) == 0 {
		return nil, nil
	}
	r := strict.Parse(source.File, source.Data)
	var list []harvest.Planting
	nodes := r.Root().List()
	if len(nodes) > mostPlantings {
		r.Root().Fail("too many plantings", fmt.Sprintf("at most %d", mostPlantings))
		nodes = nil
	}
	for _, n := range nodes {
		list = append(list, plantingOf(n, system, list))
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return list, nil
}

// withoutRemarks is a file without the lines that are nothing else.
func withoutRemarks(data []byte) (rest []byte) {
	for line := range bytes.Lines(data) {
		if !bytes.HasPrefix(bytes.TrimSpace(line), []byte("#")) {
			rest = append(rest, line...)
		}
	}
	return rest
}

// mostPlantings is beyond a life of gardening, and read within a second.
const mostPlantings = 3000

func plantingOf(n strict.Node, system units.System, before []harvest.Planting) harvest.Planting {
	m := n.Map(plantingKeys...)
	p := harvest.Planting{
		ID:      m.Require("id").Text(),
		Crop:    harvest.CropName(m.Require("crop").Text()),
		Variety: m.At("variety").Text(),
		Class:   strings.ToLower(m.At("class").Text()),
		Tub:     amount(m.At("tub"), system, units.Volume),
		Bed:     bedOf(m.At("bed"), system),
		Feed:    m.At("feed").Text(),
		Mulch:   m.At("mulch").Text(),
		Notes:   m.At("notes").Text(),
		Place:   placeOf(n),
	}
	p.Planted, p.Sown = began(m)
	if m.Has("texture") {
		p.Texture = m.At("texture").Choice(harvest.Textures()...)
	}
	if m.Has("seed") {
		if !m.At("seed").IsMap() {
			m.At("seed").Fail("how many, or their weight?", "{count: 5}, {weight: 300 g}, or both: {count: 5, weight: 300 g}")
			return p
		}
		seed := m.At("seed").Map("count", "weight")
		if seed.Has("count") {
			p.SeedCount = seed.At("count").Whole(1, 100_000)
		}
		p.SeedWeight = amount(seed.At("weight"), system, units.Mass)
	}
	checkPlanting(m, p, before)
	return p
}

// began reads the one date a planting has: of sowing, or of planting.
func began(m strict.Map) (day time.Time, sown bool) {
	if !m.Has("sown") {
		return m.Require("planted").Date(), false
	}
	if m.Has("planted") {
		m.At("planted").Fail("stands beside sown: it is counted from one of the two", "either sown: or planted:")
	}
	return m.At("sown").Date(), true
}

func checkPlanting(m strict.Map, p harvest.Planting, before []harvest.Planting) {
	if p.ID != "" && !harvest.IsID(p.ID) {
		m.At("id").Fail("cannot name a planting", fmt.Sprintf("at most %d letters, digits, - and _, without spaces: tub-3", harvest.LongestID))
	}
	if meant, ok := harvest.Misspelt(p.Crop); ok {
		m.At("crop").Fail("a slip of the pen", meant)
	}
	if p.Tub.IsValid() && p.Bed.IsValid() {
		m.At("bed").Fail("a planting stands in a tub or in a bed, not in both", "either tub: or bed:")
	}
	if row, ok := harvest.LookupCrop(p.Crop); ok && p.Class != "" && !slices.Contains(row.Classes(), p.Class) {
		m.At("class").Fail("no class of "+row.Crop, acceptedClasses(row))
	}
	for _, other := range before {
		if p.ID != "" && other.ID == p.ID && other.Planted.Equal(p.Planted) {
			m.At("id").Fail(fmt.Sprintf("stands on line %d already, with the same planted date", other.Place.Line),
				"another id; one tub may keep its id from year to year")
		}
	}
}

func acceptedClasses(row harvest.CropRow) string {
	if classes := row.Classes(); len(classes) > 0 {
		return strings.Join(classes, ", ")
	}
	return "no class: line; this crop has none"
}

// amount reads an optional quantity that has to be more than nothing.
func amount(n strict.Node, system units.System, dims ...units.Dimension) units.Quantity {
	q := n.Quantity(system, dims...)
	if q.IsValid() && (q.Sign() <= 0 || q.IsRange()) {
		n.Fail("not one amount above nothing", "one amount, such as 30 l, 2 m2 or 190 g")
	}
	return q
}

// sides are a bed's two sides: "2 m x 1 m", or "2 x 1 m".
var sides = pattern.New(`(?i)^(.*?[\d\pL½¼¾])\s*(?:x|×|\bby\b)\s*([\d.½¼¾].*)$`)

// bedOf reads a bed: its area, or its sides. A unit said once holds for both sides.
func bedOf(n strict.Node, system units.System) units.Quantity {
	if !n.IsValid() || n.IsList() || n.IsMap() {
		return amount(n, system, units.Area)
	}
	var parts []string
	if strings.ContainsAny(n.Text(), "xX×yY") { // most beds are told by their area
		parts = sides.FindStringSubmatch(n.Text())
	}
	if parts == nil {
		return amount(n, system, units.Area)
	}
	long, short := parts[1], parts[2]
	width, err := units.Parse(short, system)
	length, lengthErr := units.Parse(long, system)
	if lengthErr == nil && err == nil && length.Dimension() == units.Count {
		length, lengthErr = units.Parse(long+" "+width.Unit().Code(), system)
	}
	area, ok := areaOf(length, width)
	if err != nil || lengthErr != nil || !ok {
		n.Fail("not the sides of a bed", "its sides, as 2 m x 1.2 m, or its area, as 2.4 m2")
	}
	return area
}

// areaOf is what two sides enclose; ok is false of what is no side.
func areaOf(length, width units.Quantity) (area units.Quantity, ok bool) {
	product := big.NewRat(1, 1)
	for _, side := range []units.Quantity{length, width} {
		metres, err := side.In(units.Metre)
		if err != nil || side.IsRange() || side.Sign() <= 0 {
			return area, false
		}
		product.Mul(product, metres.Rat())
	}
	return units.FromRat(product, units.SquareMetre), true
}

func placeOf(n strict.Node) harvest.Place {
	file, line, column := n.Place()
	return harvest.Place{File: file, Line: line, Column: column}
}
