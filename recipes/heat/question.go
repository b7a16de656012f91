package heat

import "trencher/units"

// Question asks how long pieces of a crop take in steam, and what goes with
// it. Only Crop must be there; what is not asked for is not answered.
type Question struct {
	Crop  Crop
	Until Doneness
	Cut   Cut         // the zero value asks for no time
	Lots  []SizeClass // the sizes the pieces are cut from; with them, how to cut each
	Grams *float64    // the load to steam; nil = none
	Tier  int         // that a tested piece lay on, 1 the lowest; 0 = the uppermost in use
	// Table asks for the times of TableShape at several sizes, in mm.
	Table      []float64
	TableShape Shape
	Cool       *Spread // how the pieces are set out to cool; nil = not asked
	RoomC      float64 // where they cool
	// NoFridge is a kitchen without one, and Box what it may have of a box with ice.
	NoFridge bool
	Box      ColdPlace
	Curve    bool // how the piece heats

	Equipment  Equipment
	Conditions Conditions // the equipment's net power among them
}

// Answer is how long, and whatever else was asked; nil where it was not.
type Answer struct {
	Crop     Crop
	Estimate *Estimate
	Load     *Load
	Plan     *CutPlan
	Table    []SizeRow
	Cooling  *Cooling
	Curve    *Curve
	Learned  Learned // what the times rest on of this kitchen's knife tests
	Cautions []string
	Whole    []WholeSize // how large they may be and stay whole; none for what comes in its own pieces

	basis *Estimate // whose figures stand for all
}

// Answer answers the question: the time first, for what is in the steamer at
// once counts for all that follows. Its errors are those of [Steam],
// [LoadPlan], [PlanCuts] and [Cool].
func (q Question) Answer() (Answer, error) {
	sizes, err := spanOf(q.Crop, q.Lots)
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Crop: q.Crop, Learned: q.Conditions.Learned, Cautions: Cautions(q.Equipment)}
	if a.Estimate, a.Load, err = q.time(sizes); err != nil {
		return Answer{}, err
	}
	c := q.Conditions
	if a.Load != nil {
		c = a.Load.conditions(c)
	}
	if len(q.Table) > 0 {
		if a.Table, err = BySize(q.Crop, q.TableShape, q.Table, c); err != nil {
			return Answer{}, err
		}
	}
	if len(q.Lots) > 0 {
		plan, err := PlanCuts(q.Crop, q.Lots, Wish{Cut: q.Cut, Until: q.Until}, c)
		if err != nil {
			return Answer{}, err
		}
		a.Plan = &plan
	}
	if err := a.afterwards(q, Piece(q.Cut, sizes.HighMM), c); err != nil {
		return Answer{}, err
	}
	if a.Estimate != nil && !q.Crop.Ready {
		if a.Whole, err = WholeSizes(q.Crop, c); err != nil {
			return Answer{}, err
		}
	}
	return a, a.rest(q, c)
}

// time answers how long; with a load also what it takes.
func (q Question) time(sizes Sizes) (*Estimate, *Load, error) {
	if q.Cut.Shape == 0 {
		return nil, nil, nil
	}
	if q.Grams == nil {
		e, err := SteamLot(q.Crop, q.Cut, sizes, q.Until, q.Conditions)
		return &e, nil, err
	}
	load, err := LoadPlan(q.Crop, Piece(q.Cut, sizes.HighMM), q.Until, *q.Grams, q.Equipment, q.Conditions)
	if err != nil {
		return nil, nil, err
	}
	if load.Series == nil || q.spans(sizes) {
		load.Estimate, err = SteamLot(q.Crop, q.Cut, sizes, q.Until, load.conditions(q.Conditions))
	}
	return &load.Estimate, &load, err
}

// spans says whether the pieces are of more than one size.
func (q Question) spans(sizes Sizes) bool {
	return sizes != (Sizes{}) && !(q.Cut.Sized() && q.Cut.Shape.OfTuber())
}

// afterwards answers how the piece cools and how it heats.
func (a *Answer) afterwards(q Question, piece Cut, c Conditions) error {
	if q.Cool != nil {
		cooling, err := Cool(q.Crop, piece, *q.Cool, q.RoomC)
		if err != nil {
			return err
		}
		a.Cooling = &cooling
	}
	if q.Curve {
		curve, err := Trace(q.Crop, piece, q.Until, c)
		if err != nil {
			return err
		}
		a.Curve = &curve
	}
	return nil
}

// rest settles which estimate stands for the figures of all: the one asked for,
// else one of the table, else that of the cube a cutting plan compares with.
func (a *Answer) rest(q Question, c Conditions) error {
	switch {
	case a.Estimate != nil:
		a.basis = a.Estimate
	case len(a.Table) > 0:
		a.basis = &a.Table[0].By[max(q.Until, JustTender)-JustTender]
	case a.Plan != nil:
		e, err := Steam(q.Crop, Cut{Shape: Cube, SizeMM: a.Plan.PieceMM}, q.Until, c)
		a.basis = &e
		return err
	}
	return nil
}

// Reasons says what every figure of the answer rests on.
func (a Answer) Reasons() []units.Reason {
	var list []units.Reason
	if a.basis != nil {
		list = a.basis.Reasons()
	}
	list = append(list, a.Learned.Reasons(a.Crop)...)
	if a.Load != nil {
		list = append(list, a.Load.Reasons()...)
	}
	if a.Cooling != nil {
		list = append(list, a.Cooling.Reasons()...)
	}
	return list
}

// conditions are those of what this load has in the steamer at once.
func (l Load) conditions(c Conditions) Conditions {
	c.LoadGrams, c.NetPowerW, c.Heaped = l.GramsPerRound, l.NetPowerW, l.Heaped
	c.BasketMM = l.DiameterMM
	return c
}

// spanOf reaches from the smallest to the largest tuber of all classes; zero
// where there are none.
func spanOf(crop Crop, classes []SizeClass) (Sizes, error) {
	if len(classes) == 0 {
		return Sizes{}, nil
	}
	bands, err := Bands(crop, classes)
	if err != nil {
		return Sizes{}, err
	}
	span := bands[0]
	for _, band := range bands[1:] {
		span.LowMM, span.HighMM = min(span.LowMM, band.LowMM), max(span.HighMM, band.HighMM)
	}
	return span, nil
}
