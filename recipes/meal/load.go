package meal

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// Loaded is the dishes with every part's cuts and its way through the steamer,
// and the steamer's fillings.
type Loaded struct {
	Dishes []Dish
	Runs   []Run
}

// LoadUp says how every part is cut, lets parts share fillings of the steamer
// and reckons how long each takes with all that is in it. A crop without
// figures is left without a time, see [Part.IsUntimed]. An error is of heat, with
// the dish it is about.
func LoadUp(q Question, s Scaled) (Loaded, error) { return loadUp(q, s, servedAlike) }

func loadUp(q Question, s Scaled, mix mixing) (Loaded, error) {
	k := newKitchen(q)
	l := Loaded{Dishes: slices.Clone(s.Dishes)}
	for d := range l.Dishes {
		l.Dishes[d].Parts = slices.Clone(l.Dishes[d].Parts)
		for p := range l.Dishes[d].Parts {
			part := &l.Dishes[d].Parts[p]
			if err := errors.Join(k.steamAlone(part), k.boil(part, l.Dishes[d].Recipe.Served)); err != nil {
				return Loaded{}, fmt.Errorf("%s: %w", l.Dishes[d].Name(), err)
			}
		}
	}
	if err := k.fill(&l, mix); err != nil {
		return Loaded{}, err
	}
	return l, k.cutAll(&l)
}

// part is the part at a place.
func (l Loaded) part(at PartAt) *Part { return &l.Dishes[at.Dish].Parts[at.Part] }

// kitchen is the question's kitchen as heat knows it. What its knife tests say
// of a crop is reckoned once.
type kitchen struct {
	equipment  heat.Equipment
	conditions heat.Conditions
	tests      []heat.KnifeTest
	learned    map[string]heat.Learned // by crop and kind
	reckoned   *reckoned
}

func newKitchen(q Question) *kitchen {
	k := q.Kitchen
	return &kitchen{equipment: k.Equipment(), conditions: heat.Conditions{AltitudeM: k.AltitudeM, Planning: true},
		tests: q.KnifeTests, learned: map[string]heat.Learned{}, reckoned: q.reckoned}
}

// around are the conditions for so many grams of a crop in the steamer, with
// what knife tests have shown.
func (k *kitchen) around(crop heat.Crop, grams float64) heat.Conditions {
	// A stove that makes no steam to speak of is refused by the load itself.
	c, _ := k.equipment.In(k.conditions)
	known, done := k.learned[crop.Title()]
	if !done {
		known = k.learnFrom(crop, c)
		k.learned[crop.Title()] = known
	}
	c.LoadGrams, c.Learned = grams, known
	return c
}

// steamAlone reckons a part as if it had the steamer to itself.
func (k *kitchen) steamAlone(part *Part) error {
	if !part.Line.IsSteamed() {
		return nil
	}
	piece, err := pieceOf(*part)
	if errors.Is(err, heat.ErrNoFigures) {
		return nil
	}
	if err != nil {
		return err
	}
	part.Piece = piece
	load, err := k.loadPlan(piece, k.around(piece.Crop, piece.Grams))
	if err != nil {
		return err
	}
	part.Steam = &Steaming{Load: load, AtOnceG: load.GramsPerRound}
	part.Steam.take(load.Estimate)
	return nil
}

// pieceOf reads what a dish file says of cutting and steaming one crop.
func pieceOf(part Part) (piece Piece, err error) {
	line := part.Line
	if piece.Crop, err = cropOf(line, part.From); err != nil {
		return piece, err
	}
	if piece.Cut, err = heat.ParseCut(line.Cut); err != nil {
		return piece, err
	}
	if piece.Until, err = heat.ParseDoneness(line.Until); err != nil {
		return piece, err
	}
	piece.Grams = part.Prepared.InexactFloat64()
	piece.Classes = sizeClasses(part.From, line, piece.Crop)
	piece.Sized = piece.Cut
	if piece.Cut.Shape.OfTuber() && !piece.Cut.Sized() {
		piece.Sized = piece.Cut.WithTuber(largestOf(piece.Classes))
	}
	return piece, nil
}

// cropOf is the crop with its texture: the dish's, else the lots' own when they
// agree and the crop comes in such kinds.
func cropOf(line recipes.CropLine, takes []Take) (heat.Crop, error) {
	if line.Texture != "" && line.Texture != "any" {
		return heat.LookupCrop(line.Crop, line.Texture)
	}
	if crop, err := heat.LookupCrop(line.Crop, textureOf(takes)); err == nil {
		return crop, nil
	}
	return heat.LookupCrop(line.Crop, "")
}

// textureOf is the texture that all the lots have, or "".
func textureOf(takes []Take) string {
	var kinds []string
	for _, take := range takes {
		if !slices.Contains(kinds, take.Lot.Texture) {
			kinds = append(kinds, take.Lot.Texture)
		}
	}
	if len(kinds) == 1 {
		return kinds[0]
	}
	return ""
}

// sizeClasses are the size classes of what is taken, ungraded lots by the usual
// sizes, the smallest first. Lots of one band count once.
func sizeClasses(takes []Take, line recipes.CropLine, crop heat.Crop) []heat.SizeClass {
	var classes []heat.SizeClass
	add := func(low, high, grams float64) {
		at := slices.IndexFunc(classes, func(c heat.SizeClass) bool { return c.LowMM == low && c.HighMM == high })
		if at < 0 {
			classes = append(classes, heat.SizeClass{LowMM: low, HighMM: high})
			at = len(classes) - 1
		}
		classes[at].Grams += grams
	}
	for _, take := range takes {
		low, high := usualSizes(line, crop)
		if band := take.Lot.Sizes; band.IsGraded() {
			low, high = float64(band.Low), float64(band.High)
		}
		add(low, high, take.Grams.InexactFloat64())
	}
	if len(classes) == 0 {
		low, high := usualSizes(line, crop)
		add(low, high, 0)
	}
	slices.SortStableFunc(classes, func(a, b heat.SizeClass) int {
		if a.LowMM != b.LowMM {
			return int(a.LowMM - b.LowMM)
		}
		return int(a.HighMM - b.HighMM)
	})
	return classes
}

// usualSizes are the sizes reckoned for tubers that are not graded: those the
// dish asks for, else the crop's usual ones, in mm.
func usualSizes(line recipes.CropLine, crop heat.Crop) (low, high float64) {
	if line.Sizes.IsGraded() {
		return float64(line.Sizes.Low), float64(line.Sizes.High)
	}
	return crop.Usual.LowMM, crop.Usual.HighMM
}

func largestOf(classes []heat.SizeClass) float64 {
	largest := 0.0
	for _, class := range classes {
		largest = max(largest, class.HighMM)
	}
	return largest
}

// cutAll says for every part how its sizes are cut so that all pieces end
// together, and widens its times to what the sizes spread.
func (k *kitchen) cutAll(l *Loaded) error {
	for d := range l.Dishes {
		for p := range l.Dishes[d].Parts {
			part := &l.Dishes[d].Parts[p]
			if part.Steam == nil {
				continue
			}
			if err := k.cut(part); err != nil {
				return fmt.Errorf("%s: %w", l.Dishes[d].Name(), err)
			}
		}
	}
	return nil
}

func (k *kitchen) cut(part *Part) error {
	steam, piece := part.Steam, part.Piece
	if !piece.Cut.Shape.OfTuber() && piece.Cut.Shape != heat.Cube {
		part.Cuts = []Cut{{Cut: piece.Cut, AsWritten: true, PieceMM: steam.Estimate.EdgeMM, Minutes: steam.Minutes, Low: steam.Low, High: steam.High}}
		return nil
	}
	plan, err := k.planCuts(piece, k.around(piece.Crop, steam.AtOnceG))
	if err != nil {
		return err
	}
	later, err := k.later(part)
	if err != nil {
		return err
	}
	for _, rule := range plan.Rules {
		cut := Cut{Sizes: units.Band{Low: int(math.Round(rule.FromMM)), High: int(math.Round(rule.ToMM))}, Cut: rule.Cut,
			PieceMM: plan.PieceMM, Minutes: rule.Longest + later, Low: plan.Low + later, High: plan.High + later}
		if rule.Cut.Shape == heat.Cube {
			cut.PieceMM = rule.Cut.SizeMM
		}
		part.Cuts = append(part.Cuts, cut)
	}
	if !plan.Even {
		part.Uneven = Uneven{plan.EarlyMinutes, plan.LateMinutes, plan.DiceMM}
	}
	if plan.FreeFirst == steam.Estimate.FreeFirst { // else they count from different moments
		steam.Low, steam.High = min(steam.Low, plan.Low+later), max(steam.High, plan.High+later)
	}
	return nil
}

// later is by how many minutes a part is done later on its tier than if all that is
// in the steamer at once lay side by side, as a cutting plan has it.
func (k *kitchen) later(part *Part) (float64, error) {
	piece := part.Piece
	even, err := k.steam(piece, k.around(piece.Crop, part.Steam.AtOnceG))
	if err != nil || even.FreeFirst != part.Steam.Estimate.FreeFirst {
		return 0, err
	}
	return part.Steam.Estimate.Modelled - even.Modelled, nil
}
