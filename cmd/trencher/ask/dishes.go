package ask

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"github.com/shopspring/decimal"

	"trencher/harvest"
	"trencher/recipes"
	"trencher/recipes/heat"
	"trencher/units"
)

// tellDishes scales every dish that is made and says how its crops are cut
// and steamed; dishes that are not made come with their reason.
func (s *sharing) tellDishes() error {
	for i, dish := range s.dishes {
		portions := s.solved.Portions[i]
		if portions == 0 {
			continue
		}
		scaled := dish.ScaleToPortions(portions, s.plot.Kitchen)
		s.scaled[dish.Name] = scaled
		told := tellScaled(scaled, portions)
		told.Notes = s.plot.notesOn(dish.Name)
		for j := range dish.Crops {
			lots, takes := s.taken(i, j)
			part, detail, err := s.plot.cropPart(scaled.Crops[j], lots, takes)
			if err != nil {
				return fmt.Errorf("%s: %w", dish.Name, err)
			}
			s.details[partAt{len(s.plan.Dishes), j}] = detail
			told.Crops = append(told.Crops, part)
		}
		s.plan.Dishes = append(s.plan.Dishes, told)
	}
	for _, out := range s.solved.LeftOut {
		s.plan.LeftOut = append(s.plan.LeftOut, LeftOut{Dish: s.dishes[out.Dish].Name, Because: s.leftOutReason(out)})
	}
	s.warnUntimed()
	return s.steamAll()
}

// taken lists the lots that one crop line of a dish takes from.
func (s *sharing) taken(dish, need int) (lots []*harvest.Lot, takes []Take) {
	for _, flow := range s.solved.Flows {
		if flow.Dish == dish && flow.Need == need {
			lot := s.lots[flow.Lot]
			lots = append(lots, lot)
			takes = append(takes, Take{Lot: lot.ID, Name: lot.Name, Grams: flooredGrams(flow.Grams)})
		}
	}
	return lots, takes
}

// tellScaled is a scaled dish without its crops.
func tellScaled(scaled recipes.Scaled, portions int) Dish {
	dish := scaled.Dish
	told := Dish{Name: dish.Name, Portions: portions, Factor: decimalOf(scaled.Factor), Served: string(dish.Served),
		Method: dish.Method, Cautions: scaled.Cautions}
	contains, may := dish.Allergens()
	told.Allergens = Allergens{Contains: allergenWords(contains), May: allergenWords(may)}
	if unknown := dish.Unknown(); len(unknown) > 0 {
		told.Allergens.May = []string{"anything (not in our table: " + Listed(unknown) + ")"}
	}
	told.Cautions = append(told.Cautions, dish.Tell()...)
	for _, line := range scaled.Others {
		told.Others = append(told.Others, tellLine(line))
	}
	return told
}

func allergenWords(allergens []recipes.Allergen) []string {
	var words []string
	for _, a := range allergens {
		words = append(words, a.String())
	}
	return words
}

// tellLine is one measured ingredient.
func tellLine(line recipes.ScaledLine) Line {
	told := Line{Item: line.Item, State: line.State, Measured: line.Measured.Text, Advice: line.Advice,
		ShowExact: line.Measured.Note, Flag: line.Measured.Flag, Optional: line.Optional, FromPlot: line.FromPlot}
	told.ErrorPercent, _ = line.Measured.ErrorPercent.Float64()
	tellAmount(&told, line.Exact)
	if told.Measured == "" {
		told.Measured = line.Exact.String()
	}
	if line.Measured.Alternative != "" {
		told.Advice = joinWords("; ", told.Advice, line.Measured.Alternative)
	}
	for _, instead := range line.Instead {
		told.Instead = append(told.Instead, instead.Measured.Text+" "+instead.Item)
	}
	return told
}

// tellAmount writes an exact amount, or a range's two ends, with its unit.
func tellAmount(line *Line, q units.Quantity) {
	if !q.IsValid() || q.IsToTaste() {
		return
	}
	line.Unit = q.Unit().Code()
	low, high := q.Ends()
	if q.IsRange() {
		line.Low, line.High = decimalOf(low).String(), decimalOf(high).String()
		return
	}
	line.Exact = decimalOf(low).String()
}

// steamed is what steaming needs to know of a crop part to reckon it again.
type steamed struct {
	crop    heat.Crop
	cut     heat.Cut // as the dish file says
	sized   heat.Cut // the cut of its largest tuber
	until   heat.Doneness
	classes []heat.SizeClass
	grams   float64
}

// cropPart says what a crop line takes, how it is cut and how long it steams.
func (p *Plot) cropPart(scaled recipes.ScaledCrop, lots []*harvest.Lot, takes []Take) (CropPart, steamed, error) {
	line := scaled.Line
	part := CropPart{Crop: line.Crop, Preparation: line.Prepared, From: takes, Cut: line.Cut, Until: line.Until,
		Raw: line.Cook == "raw"}
	lifted, err := gramsOf(scaled.Lifted)
	if err != nil {
		return part, steamed{}, err
	}
	prepared, err := gramsOf(scaled.Prepared)
	if err != nil {
		return part, steamed{}, err
	}
	part.Prepared = decimalOf(prepared)
	if cooked, err := gramsOf(scaled.Cooked); err == nil {
		part.Cooked = decimalOf(cooked).Round(0)
	}
	part.Lifted = sumTakes(takes)
	if len(takes) == 0 {
		part.Lifted = decimalOf(lifted)
	}
	if part.Raw {
		return part, steamed{}, nil
	}
	detail, err := steamDetail(line, lots, takes, prepared)
	if noFigures(err) {
		part.CutNote = "how long " + line.Crop + " steams is not known here: try a piece with a knife"
		return part, steamed{}, nil
	}
	if err != nil {
		return part, detail, err
	}
	return part, detail, p.steam(&part, detail)
}

// noFigures tells a crop for which steaming has no figures: its dish is
// planned all the same, without a time.
func noFigures(err error) bool {
	return errors.Is(err, heat.ErrNoFigures)
}

// warnUntimed says which steamed crops the timetable has to leave out.
func (s *sharing) warnUntimed() {
	for _, dish := range s.plan.Dishes {
		for _, part := range dish.Crops {
			if !part.Raw && part.Steam == nil {
				s.plan.Warnings = append(s.plan.Warnings, fmt.Sprintf("how long %s steams is not known here: no time, water or gas is reckoned for it in %s",
					part.Crop, dish.Name))
			}
		}
	}
}

func gramsOf(q units.Quantity) (*big.Rat, error) {
	grams, err := q.In(units.Gram)
	if err != nil {
		return nil, err
	}
	return grams.Rat(), nil
}

func sumTakes(takes []Take) decimal.Decimal {
	sum := decimal.Zero
	for _, take := range takes {
		sum = sum.Add(take.Grams)
	}
	return sum
}

// steamDetail reads what a dish file says of cutting and steaming one crop.
func steamDetail(line recipes.CropLine, lots []*harvest.Lot, takes []Take, prepared *big.Rat) (d steamed, err error) {
	if d.crop, err = heat.LookupCrop(line.Crop, kindOf(line, lots)); err != nil {
		return d, err
	}
	if d.cut, err = heat.ParseCut(line.Cut); err != nil {
		return d, err
	}
	if d.until, err = heat.ParseDoneness(line.Until); err != nil {
		return d, err
	}
	d.grams, _ = prepared.Float64()
	d.classes = sizeClasses(lots, takes, line, d.crop)
	d.sized = d.cut
	if d.cut.Shape.OfTuber() && !d.cut.Sized() {
		d.sized = d.cut.WithTuber(largestOf(d.classes))
	}
	return d, nil
}

// steam adds rounds and times to a crop part that steams by itself.
func (p *Plot) steam(part *CropPart, d steamed) error {
	load, err := heat.LoadPlan(d.crop, d.sized, d.until, d.grams, p.equipment(), p.conditions(d.crop, d.grams))
	if err != nil {
		return err
	}
	part.Steam = tellLoad(load)
	part.Steam.AtOnce = load.GramsPerRound
	part.Steam.Reasons = append(load.Estimate.Reasons(), load.Reasons()...)
	return nil
}

// steamTogether reckons a part's times again for that many grams in the
// steamer at once.
func (p *Plot) steamTogether(part *CropPart, d steamed, grams float64) error {
	c, err := p.steamConditions(d.crop, grams)
	if err != nil {
		return err
	}
	e, err := heat.Steam(d.crop, d.sized, d.until, c)
	if err != nil {
		return err
	}
	steam := part.Steam
	steam.Minutes, steam.Low, steam.High, steam.ComeUp, steam.CentreC = e.Minutes, e.Low, e.High, e.ComeUp, e.CentreC
	steam.AtOnce = grams
	return nil
}

// steamConditions are the kitchen's, with the heat its stove makes steam with.
func (p *Plot) steamConditions(crop heat.Crop, grams float64) (heat.Conditions, error) {
	c := p.conditions(crop, grams)
	var err error
	c.NetPowerW, err = p.equipment().NetPowerW()
	return c, err
}

func largestOf(classes []heat.SizeClass) float64 {
	largest := 0.0
	for _, class := range classes {
		largest = max(largest, class.HighMM)
	}
	return largest
}

// kindOf is the texture steaming reckons with: the dish's, else the lots' own
// when they agree.
func kindOf(line recipes.CropLine, lots []*harvest.Lot) string {
	if line.Texture != "" && line.Texture != "any" {
		return line.Texture
	}
	kinds := map[string]bool{}
	kind := ""
	for _, lot := range lots {
		kinds[lot.Texture] = true
		kind = lot.Texture
	}
	if len(kinds) == 1 {
		return kind
	}
	return ""
}

// conditions are the kitchen's, for a load of that many grams of a crop, with
// what its knife tests have shown.
func (p *Plot) conditions(crop heat.Crop, grams float64) heat.Conditions {
	return heat.Conditions{AltitudeM: p.Kitchen.AltitudeM, LoadGrams: grams, Learned: p.learnedOf(crop)}
}

// equipment is the kitchen's steamer and stove as steaming reckons with them.
func (p *Plot) equipment() heat.Equipment {
	k := p.Kitchen
	return heat.Equipment{DiameterMM: k.Steamer.DiameterMM, Tiers: k.Steamer.Tiers,
		PowerW: k.Stove.PowerW, Fuel: k.Stove.Gas, Efficiency: k.Stove.Efficiency, Windy: k.Stove.Windy}
}

// usualSizes are the sizes reckoned for tubers that are not graded: those the
// dish asks for, else the crop's usual ones.
func usualSizes(line recipes.CropLine, crop heat.Crop) (low, high float64) {
	if line.Sizes.High > 0 {
		return float64(line.Sizes.Low), float64(line.Sizes.High)
	}
	return crop.Usual.LowMM, crop.Usual.HighMM
}

// sizeClasses are the size classes of what is taken, ungraded lots by their
// usual sizes. Lots of one band count once.
func sizeClasses(lots []*harvest.Lot, takes []Take, line recipes.CropLine, crop heat.Crop) []heat.SizeClass {
	var classes []heat.SizeClass
	add := func(low, high, grams float64) {
		at := slices.IndexFunc(classes, func(c heat.SizeClass) bool { return c.LowMM == low && c.HighMM == high })
		if at < 0 {
			classes = append(classes, heat.SizeClass{LowMM: low, HighMM: high})
			at = len(classes) - 1
		}
		classes[at].Grams += grams
	}
	for i, lot := range lots {
		grams, _ := takes[i].Grams.Float64()
		low, high := float64(lot.Sizes.Low), float64(lot.Sizes.High)
		if high == 0 {
			low, high = usualSizes(line, crop)
		}
		add(low, high, grams)
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
