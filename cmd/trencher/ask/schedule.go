package ask

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"trencher/recipes/heat"
	"trencher/recipes/planner"
)

// Minutes of handwork, all common practice, no source: they only have to keep
// the steps from being squeezed together.
const (
	scrubPerKilo  = 6.0
	peelPerKilo   = 12.0
	cutPerKilo    = 6.0
	leastPrepare  = 5.0
	loadSteamer   = 2.0
	finishHot     = 5.0
	dressWarm     = 5.0
	dressCold     = 10.0
	chillCold     = 60.0
	pickAtLeast   = 3.0
	pickEachPlant = 2.0
)

// tellTimetable draws the timetable backward from the serving time. With no
// serving time it only says how long to allow. A start that is past already is
// told, with what would help.
func (s *sharing) tellTimetable() error {
	jobs := s.jobs(s.plan.Dishes)
	if len(jobs) == 0 {
		return nil
	}
	kitchen := s.steamKitchen(s.plan.Dishes)
	serve := s.serveAt
	if serve.IsZero() {
		serve = s.plot.On.Add(18 * time.Hour)
	}
	tasks := planner.Timetable(jobs, kitchen, serve)
	s.plan.AllowMinutes = serve.Sub(tasks[0].At).Minutes()
	if s.serveAt.IsZero() {
		return nil
	}
	for _, task := range tasks {
		s.plan.Timetable = append(s.plan.Timetable, Task{At: task.At, Minutes: task.Long.Minutes(), Do: task.Do,
			Dish: task.Dish, For: s.sharers(task.Round), Uses: string(task.Uses)})
	}
	s.tellLate(tasks[0].At)
	return nil
}

// sharers are the dishes that share a round of the steamer.
func (s *sharing) sharers(round int) []string {
	var names []string
	for _, dish := range s.plan.Dishes {
		for _, part := range dish.Crops {
			if round != 0 && part.Steam != nil && part.Steam.Round == round && !slices.Contains(names, dish.Name) {
				names = append(names, dish.Name)
			}
		}
	}
	return names
}

// jobs turns the dishes into the planner's chains of steps.
func (s *sharing) jobs(dishes []Dish) []planner.Job {
	var jobs []planner.Job
	for _, dish := range dishes {
		jobs = append(jobs, s.job(dishes, dish))
	}
	return jobs
}

func (s *sharing) job(dishes []Dish, dish Dish) planner.Job {
	job := planner.Job{Dish: dish.Name, Rank: slices.Index([]string{"cold", "warm", "hot"}, dish.Served)}
	for _, part := range dish.Crops {
		job.Before = append(job.Before, prepareStep(dish, part))
		if part.Steam != nil {
			job.Steam = append(job.Steam, steamSteps(dishes, dish, part)...)
		}
	}
	slices.SortStableFunc(job.Steam, func(a, b planner.Step) int { return a.Round - b.Round })
	job.After = s.finish(dish)
	job.AtOnce = dish.Served != "cold"
	for _, other := range dish.Others {
		job.Herbs = job.Herbs || other.FromPlot
	}
	return job
}

func step(do string, minutes float64, uses planner.Resource) planner.Step {
	return planner.Step{Do: do, Long: time.Duration(math.Ceil(minutes-1e-9)) * time.Minute, Uses: uses}
}

func prepareStep(dish Dish, part CropPart) planner.Step {
	kilos, _ := part.Lifted.Float64()
	kilos /= 1000
	rate := scrubPerKilo
	if strings.Contains(part.Preparation, "peel") {
		rate = peelPerKilo
	}
	do := capitalWords(part.Preparation)
	return step(fmt.Sprintf("%s and cut the %s for %s", do, part.Crop, dish.Name),
		math.Max(leastPrepare, kilos*(rate+cutPerKilo)), planner.Cook)
}

// capitalWords is what to do to get a crop prepared so: "scrubbed" is "Scrub".
func capitalWords(prepared string) string {
	switch {
	case strings.HasPrefix(prepared, "scrub"):
		return "Scrub"
	case strings.HasPrefix(prepared, "peel"):
		return "Peel"
	case strings.HasPrefix(prepared, "shell"):
		return "Shell"
	}
	return "Wash, trim"
}

// steamSteps are the rounds of one crop part, each long enough for its slowest
// piece; a shared round is told with all that is in it.
func steamSteps(dishes []Dish, dish Dish, part CropPart) []planner.Step {
	s := part.Steam
	if s.Round != 0 {
		return []planner.Step{sharedStep(dishes, s.Round)}
	}
	var steps []planner.Step
	for round := 1; round <= s.Rounds; round++ {
		which := ""
		if s.Rounds > 1 {
			which = fmt.Sprintf(", round %d of %d", round, s.Rounds)
		}
		steps = append(steps, step("Steam "+steamWords(dish, part)+which, loadSteamer+s.ComeUp+s.High, planner.Steamer))
	}
	return steps
}

// steamWords says what is steamed for how long: from full steam, the knife
// first.
func steamWords(dish Dish, part CropPart) string {
	return fmt.Sprintf("the %s for %s, about %.0f min from full steam (knife from %.0f)", part.Crop, dish.Name, part.Steam.Minutes, part.Steam.Low)
}

// sharedStep is a round of the steamer that several crop parts share, as long
// as the slowest of them.
func sharedStep(dishes []Dish, round int) planner.Step {
	long := 0.0
	var words []string
	for _, dish := range dishes {
		for _, part := range dish.Crops {
			if part.Steam != nil && part.Steam.Round == round {
				long = math.Max(long, loadSteamer+part.Steam.ComeUp+part.Steam.High)
				words = append(words, steamWords(dish, part))
			}
		}
	}
	shared := step("Steam together, a tier each: "+strings.Join(words, "; "), long, planner.Steamer)
	shared.Round = round
	return shared
}

// finish is what follows steaming: hot dishes are finished and go straight to
// the table, warm ones are dressed, cold ones cool, chill and are dressed.
func (s *sharing) finish(dish Dish) []planner.Step {
	switch dish.Served {
	case "hot":
		return []planner.Step{step("Finish "+dish.Name+" and take it to the table", finishHot, planner.Cook)}
	case "warm":
		return []planner.Step{step("Dress "+dish.Name+" while it is warm", dressWarm, planner.Cook)}
	}
	var steps []planner.Step
	if cooling, _, ok := s.cooling(dish); ok {
		steps = append(steps,
			step("Spread "+dish.Name+" out in one layer on a tray to cool", cooling.FridgeLatest, planner.Nothing),
			step("Put "+dish.Name+" into the fridge, shallow and covered", chillCold, planner.Nothing))
	}
	return append(steps, step("Dress "+dish.Name+" and serve it cold", dressCold, planner.Cook))
}

// steamKitchen is the work all dishes share: the first boil and the picking.
func (s *sharing) steamKitchen(dishes []Dish) planner.Kitchen {
	var kitchen planner.Kitchen
	var herbs []string
	for _, dish := range dishes {
		for _, part := range dish.Crops {
			if part.Steam != nil {
				kitchen.Boil = max(kitchen.Boil, step("", part.Steam.ToBoil, planner.Steamer).Long)
			}
		}
		for _, other := range dish.Others {
			if other.FromPlot && !slices.Contains(herbs, other.Item) {
				herbs = append(herbs, other.Item)
			}
		}
	}
	if len(herbs) > 0 {
		kitchen.Pick = step("Pick and wash "+Listed(herbs), pickAtLeast+pickEachPlant*float64(len(herbs)), planner.Cook)
	}
	return kitchen
}

// milestones are the moments the keeping rules ask about: the end of steaming,
// the dressing, the move into the fridge.
func (s *sharing) milestones(dish string) (cooked, dressed, chilled time.Time) {
	for _, task := range s.plan.Timetable {
		if task.Dish != dish && !slices.Contains(task.For, dish) {
			continue
		}
		switch {
		case task.Uses == string(planner.Steamer):
			cooked = endOf(task)
		case strings.HasPrefix(task.Do, "Put "):
			chilled = task.At
		case strings.HasPrefix(task.Do, "Dress "):
			dressed = task.At
		}
	}
	return cooked, dressed, chilled
}

// tellLate warns when the first task should have begun already, and tries what
// would help: each change is planned again in full.
func (s *sharing) tellLate(start time.Time) {
	late := s.plot.where.Now.Sub(start)
	if late <= 0 {
		return
	}
	s.plan.Warnings = append(s.plan.Warnings, fmt.Sprintf("%s cannot be met: the work would have begun at %s, %s ago. %s",
		s.serveAt.Format("15:04"), start.Format("15:04"), longWords(late), s.helps(start)))
}

// change is something that could bring the start later, planned again.
type change struct {
	says  string
	saves time.Duration
}

const (
	mostHelps = 3
	worthIt   = 5 * time.Minute // a change that saves less is not told
)

// helps names the changes that would bring the start later the most.
func (s *sharing) helps(start time.Time) string {
	changes := s.changes(start)
	slices.SortStableFunc(changes, func(a, b change) int { return cmp.Compare(b.saves, a.saves) })
	var words []string
	for _, c := range changes[:min(mostHelps, len(changes))] {
		words = append(words, fmt.Sprintf("%s saves %s", c.says, longWords(c.saves)))
	}
	if len(words) == 0 {
		return "Serve later."
	}
	return "What would help: " + strings.Join(words, "; ") + "; or serve later."
}

// changes tries, dish by dish: serving it warm, cutting it smaller, leaving it
// out.
func (s *sharing) changes(start time.Time) []change {
	var changes []change
	try := func(says string, dishes []Dish) {
		tasks := planner.Timetable(s.jobs(dishes), s.steamKitchen(dishes), s.serveAt)
		if saves := tasks[0].At.Sub(start); saves >= worthIt {
			changes = append(changes, change{says, saves})
		}
	}
	for i, dish := range s.plan.Dishes {
		if dish.Served == "cold" {
			try("serving "+dish.Name+" warm", replaced(s.plan.Dishes, i, func(d *Dish) { d.Served = "warm" }))
		}
		if smaller, size := s.plot.cutSmaller(dish); size > 0 {
			try(fmt.Sprintf("cutting %s to %.0f mm", dish.Name, size), replaced(s.plan.Dishes, i, func(d *Dish) { d.Crops = smaller }))
		}
		if len(s.plan.Dishes) > 1 {
			try("leaving "+dish.Name+" out", slices.Delete(slices.Clone(s.plan.Dishes), i, i+1))
		}
	}
	return changes
}

func replaced(dishes []Dish, at int, change func(*Dish)) []Dish {
	dishes = slices.Clone(dishes)
	change(&dishes[at])
	return dishes
}

// cutSmaller steams a dish again with its cubes four fifths as large, and says
// how large; 0 when nothing in it is cut to cubes.
func (p *Plot) cutSmaller(dish Dish) (parts []CropPart, size float64) {
	for _, part := range dish.Crops {
		cut, err := heat.ParseCut(part.Cut)
		if err == nil && part.Steam != nil && cut.Shape == heat.Cube {
			smaller := heat.Cut{Shape: heat.Cube, SizeMM: math.Round(cut.SizeMM * 0.8)}
			if load, err := p.load(part, smaller); err == nil {
				part.Steam = tellLoad(load)
				part.Cuts = []CutPart{{PieceMM: smaller.SizeMM}}
				size = smaller.SizeMM
			}
		}
		parts = append(parts, part)
	}
	return parts, size
}

func (p *Plot) load(part CropPart, cut heat.Cut) (heat.Load, error) {
	crop, err := heat.LookupCrop(part.Crop, "")
	if err != nil {
		return heat.Load{}, err
	}
	until, err := heat.ParseDoneness(part.Until)
	if err != nil {
		return heat.Load{}, err
	}
	grams, _ := part.Prepared.Float64()
	return heat.LoadPlan(crop, cut, until, grams, p.equipment(), p.conditions(crop, grams))
}

// longWords writes a span: "1 h 25 min".
func longWords(d time.Duration) string {
	minutes := int(math.Ceil(d.Minutes()))
	if minutes < 60 {
		return fmt.Sprintf("%d min", minutes)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}
