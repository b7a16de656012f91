package render

import (
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"

	"trencher/recipes"
	"trencher/recipes/meal"
)

// Reckoned is a reckoner and what became of it.
type Reckoned struct {
	meal.Reckoner
	File    string   // it was written to
	Omitted []string // the dishes that had no room
}

// Reckoner writes a ready reckoner as one self-contained HTML page that prints as
// two sides of A4, in black and white, to hang where there is no device to ask. It
// returns the dishes that did not fit; the page names them too. Nothing is written
// when it cannot be laid out.
func Reckoner(w io.Writer, r meal.Reckoner) (omitted []string, err error) {
	view := viewReckoner(r)
	return view.Omitted, execute(w, "reckoner", struct {
		reckonerView
		Style template.CSS
	}{view, template.CSS(ReckonerStyle())})
}

// ReckonerStyle is the style sheet of Reckoner.
func ReckonerStyle() string { return styleOf("reckoner.css") }

// ReckonerOmits says which dishes had no room on a reckoner and how to choose;
// "" where all had.
func ReckonerOmits(omitted []string) string {
	if len(omitted) == 0 {
		return ""
	}
	return fmt.Sprintf("No room for %s. Choose the dishes for it, as: trencher reckoner shed.html %q", listed(omitted), omitted[0])
}

// reckonerView is a reckoner in words, laid out on its two sides.
type reckonerView struct {
	Title, Made, Kitchen string
	Sides                [2][]reckonedDishView
	Times                []timesView
	Loads                []loadsView
	LoadHeads            []string
	Own                  []string
	Stands               []standsView
	StandHeads           []string
	Heated               string
	Care                 []string
	Omitted              []string
	OmittedSays          string
}

// reckonedDishView is one dish: what each number of portions takes.
type reckonedDishView struct {
	Name, Served string
	Portions     []string
	Rows         []reckonedRow
	Foot         string
	Dangers      []string
}

type reckonedRow struct {
	What  string
	Crop  bool
	Cells []string
}

// timesView is the minutes of several crops at the same sizes.
type timesView struct {
	Sizes []string
	Rows  []timesRow
}

type timesRow struct {
	What  string
	Cells []timeCell
}

type timeCell struct{ Usual, Range string }

type loadsView struct {
	What  string
	Cells []loadCell
}

type loadCell struct{ Time, Takes string }

type standsView struct {
	Dish  string
	Cells []string
}

// viewReckoner lays a reckoner out: all dishes where both sides hold them with what
// belongs to them, else one after the other those that still fit.
func viewReckoner(r meal.Reckoner) reckonerView {
	if view := reckonerOf(r, nil); view.place() {
		return view
	}
	var omitted []string
	for _, dish := range r.Dishes {
		omitted = append(omitted, dish.Recipe.Name)
	}
	kept := r
	kept.Dishes = nil
	for _, dish := range r.Dishes {
		with := kept
		with.Dishes = append(slices.Clone(kept.Dishes), dish)
		if view := reckonerOf(with, omitted); view.place() { // with room to name all, as yet
			kept = with
		}
	}
	view := reckonerOf(kept, slices.DeleteFunc(omitted, func(name string) bool {
		return slices.ContainsFunc(kept.Dishes, func(d meal.ReckonedDish) bool { return d.Recipe.Name == name })
	}))
	view.place()
	return view
}

// reckonerOf puts a reckoner into words, its dishes all on the first side yet.
func reckonerOf(r meal.Reckoner, omitted []string) reckonerView {
	view := reckonerView{
		Title: "Ready reckoner",
		Made: "Made on " + longDate(r.On) + " from kitchen.yaml and the dishes: make it anew when they change. " +
			"Weigh the crop as lifted; the column with no more than that says what goes in. Each: for a portion. ≈: more than a tenth off.",
		Kitchen: reckonerKitchen(r),
		Heated:  heatedWords(r),
		Care:    careWords(r),
		Omitted: omitted, OmittedSays: ReckonerOmits(omitted),
	}
	made := map[string]bool{}
	for _, dish := range r.Dishes {
		made[dish.Recipe.Name] = true
		view.Sides[0] = append(view.Sides[0], viewReckonedDish(dish))
		view.Stands = append(view.Stands, viewStands(r.Kitchen, dish))
	}
	view.StandHeads = standHeads(r.Kitchen)
	for _, h := range r.Heats {
		if slices.ContainsFunc(h.Dishes, func(name string) bool { return made[name] }) {
			view.addHeat(h)
		}
	}
	return view
}

// reckonerKitchen is what the figures are for.
func reckonerKitchen(r meal.Reckoner) string {
	k := r.Kitchen
	stove := fmt.Sprintf("stove %.1f kW", k.Stove.PowerW/1000)
	if k.Stove.Gas != "" {
		stove += ", " + k.Stove.Gas
	}
	fridge := fmt.Sprintf("fridge %g °C", k.FridgeC)
	if k.NoFridge {
		fridge = "no fridge"
	}
	return fmt.Sprintf("For this kitchen: steamer %.0f mm, %s; %s; %.0f m above the sea; %s; room %g °C; %s of its own.",
		k.Steamer.DiameterMM, count(k.Steamer.Tiers, "tier", "tiers"), stove, k.AltitudeM, fridge, k.RoomC, count(r.KnifeTests, "knife test", "knife tests"))
}

func viewReckonedDish(d meal.ReckonedDish) reckonedDishView {
	view := reckonedDishView{Name: d.Recipe.Name, Served: string(d.Recipe.Served)}
	for i, line := range d.Recipe.Crops {
		row := reckonedRow{What: cropOfReckoner(line) + ", " + grams(d.Portion[i]) + " each", Crop: true}
		view.addFoot(capital(joinNonEmpty(", ", line.Crop+" "+line.Prepared, line.Cut)) + ".")
		for _, made := range d.Made {
			row.Cells = append(row.Cells, grams(made.Parts[i].Lifted))
		}
		view.Rows = append(view.Rows, row)
	}
	for _, made := range d.Made {
		view.Portions = append(view.Portions, fmt.Sprint(made.Portions))
	}
	view.addOthers(d)
	contains, may := allergenWords(d.Made[0])
	if len(contains) > 0 {
		view.addFoot("Contains " + strings.Join(contains, ", ") + ".")
	}
	if len(may) > 0 {
		view.addFoot("May contain " + strings.Join(may, ", ") + ".")
	}
	plan := meal.Plan{Dishes: d.Made[:1]}
	for _, w := range d.Warnings {
		says := joinNonEmpty(" ", sentence(warningWords(w, plan)), mendWords(w, plan))
		if w.Severity == meal.Danger {
			view.Dangers = append(view.Dangers, says)
		} else {
			view.addFoot(says)
		}
	}
	return view
}

func (view *reckonedDishView) addFoot(says string) { view.Foot = joinNonEmpty(" ", view.Foot, says) }

// cropOfReckoner names a crop with its texture.
func cropOfReckoner(line recipes.CropLine) string {
	if line.Texture == "any" {
		return capital(line.Crop)
	}
	return capital(joinNonEmpty(" ", line.Texture, line.Crop))
}

// addOthers adds a row for each other ingredient and what may stand in its place;
// what is the same for any number of portions goes into the foot.
func (view *reckonedDishView) addOthers(d meal.ReckonedDish) {
	var same []string
	for i, line := range d.Made[0].Scaled.Others {
		row := rowOfOther(d, i)
		if len(line.Instead) == 0 && allAlike(row.Cells) {
			same = append(same, row.What+" "+row.Cells[0])
			continue
		}
		view.Rows = append(view.Rows, row)
		for j, instead := range line.Instead {
			view.Rows = append(view.Rows, reckonedRow{What: "or " + instead.Item,
				Cells: cellsOf(d, func(made recipes.Scaled) recipes.ScaledLine { return made.Others[i].Instead[j] })})
		}
	}
	if len(same) > 0 {
		view.addFoot("For any number: " + strings.Join(same, "; ") + ".")
	}
}

// rowOfOther is one other ingredient: what it is, and how much at each size.
func rowOfOther(d meal.ReckonedDish, i int) reckonedRow {
	largest := d.Made[len(d.Made)-1].Scaled.Others[i]
	row := reckonedRow{What: joinNonEmpty(", ", scaledWords(largest).Item, largest.Advice),
		Cells: cellsOf(d, func(made recipes.Scaled) recipes.ScaledLine { return made.Others[i] })}
	if largest.Optional {
		row.What += ", if you like"
	}
	if largest.FromPlot {
		row.What += " (plot)"
	}
	return row
}

// cellsOf are the amounts of a line at each size; far from exact where ≈ stands
// before them.
func cellsOf(d meal.ReckonedDish, line func(recipes.Scaled) recipes.ScaledLine) (cells []string) {
	for _, made := range d.Made {
		words := scaledWords(line(made.Scaled))
		if words.Flag {
			words.Measured = "≈ " + words.Measured
		}
		cells = append(cells, words.Measured)
	}
	return cells
}

func allAlike(cells []string) bool {
	return !slices.ContainsFunc(cells, func(cell string) bool { return cell != cells[0] })
}
