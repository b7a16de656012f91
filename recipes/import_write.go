package recipes

import (
	"fmt"
	"math/big"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"trencher/units"
)

// dishFile writes the dish file for a recipe.
func (im *importer) dishFile(recipe map[string]any) string {
	portions := im.portions(recipe["recipeYield"])
	var lines []importLine
	for _, text := range ingredientTexts(recipe) {
		if l, ok := im.line(text); ok {
			lines = append(lines, l)
		}
	}
	lines = im.addUp(lines)
	crops := im.weighedCrops(lines)
	im.unusedAnswers()
	var out strings.Builder
	w := dishWriter{&out}
	w.line("# Read from a schema.org Recipe. Lines marked \"check\" were not in it.")
	w.line("name: %s", scalar(nameOf(recipe, im.file)))
	w.line("portions: %d", portions)
	w.line("served: hot                  # check: hot | warm | cold")
	w.line("smallest: 1                  # check: fewest and most portions worth making at once")
	w.line("largest: %d", min(4*max(portions, 1), MaxPortions))
	w.line("crops:")
	for i, l := range lines {
		if crops[i] {
			w.crop(l)
		}
	}
	w.others(lines, crops)
	w.method(steps(recipe["recipeInstructions"]))
	return out.String()
}

// addUp makes one line of an ingredient that stands twice.
func (im *importer) addUp(lines []importLine) []importLine {
	var once []importLine
	for _, l := range lines {
		first := slices.IndexFunc(once, func(o importLine) bool {
			return sameItem(o.item, l.item) && slices.Equal(o.state, l.state)
		})
		if first < 0 {
			once = append(once, l)
			continue
		}
		sum, err := once[first].amount.Add(l.amount)
		once[first].weight = units.Quantity{} // the bracket spoke of one line only
		if err != nil {
			im.fail(l.text, fmt.Sprintf("%q: stands twice, in amounts that do not add up", l.text), "one line of it")
			continue
		}
		once[first].amount, once[first].text = sum, once[first].text+" + "+l.text
	}
	return once
}

// sameItem tells two names of one ingredient or crop.
func sameItem(a, b string) bool {
	cropA, textureA := cropOf(a)
	cropB, textureB := cropOf(b)
	return fold(a) == fold(b) || cropA != "" && cropA == cropB && textureA == textureB
}

func ingredientTexts(recipe map[string]any) []string {
	for _, key := range []string{"recipeIngredient", "ingredients", "supply"} {
		if all := texts(recipe[key]); len(all) > 0 {
			return slices.DeleteFunc(all, func(s string) bool { return s == "" })
		}
	}
	return nil
}

func nameOf(recipe map[string]any, file string) string {
	if name := firstText(recipe["name"]); name != "" {
		return string([]rune(name)[:min(len([]rune(name)), 60)])
	}
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}

var wholeNumber = regexp.MustCompile(`\d+`)

func (im *importer) portions(value any) int {
	if im.options.Portions > 0 {
		return im.options.Portions
	}
	for _, text := range texts(value) {
		if n, err := strconv.Atoi(wholeNumber.FindString(text)); err == nil && n >= 1 && n <= MaxPortions {
			return n
		}
	}
	im.fail(firstText(value), fmt.Sprintf("recipeYield %q does not say how many portions", firstText(value)),
		fmt.Sprintf("a number from 1 to %d; or say for how many to take it", MaxPortions))
	return 0
}

// weighedCrops marks the lines the dish is built on: the heaviest weighed
// crop and any other of at least a quarter of its weight.
func (im *importer) weighedCrops(lines []importLine) map[int]bool {
	heaviest := new(big.Rat)
	grams := map[int]*big.Rat{}
	counted := ""
	for i, l := range lines {
		crop, _ := cropOf(l.item)
		switch weight := l.grams(); {
		case crop == "":
		case weight == nil:
			if counted == "" {
				counted = l.text
			}
		default:
			grams[i] = weight
			if weight.Cmp(heaviest) > 0 {
				heaviest = weight
			}
		}
	}
	marked := map[int]bool{}
	least := new(big.Rat).Mul(heaviest, big.NewRat(1, 4))
	for i, weight := range grams {
		if weight.Cmp(least) >= 0 {
			marked[i] = true
		}
	}
	if len(marked) == 0 {
		problem := "no crop is weighed in this recipe"
		if counted != "" {
			problem += fmt.Sprintf(": %q has no weight", counted)
		}
		im.fail(counted, problem, "the weight of the crop it is built on: 900 g potatoes; or give its line that amount: potatoes=900 g")
	}
	return marked
}

func (im *importer) unusedAnswers() {
	var names []string
	for key := range im.options.Amounts {
		if !im.used[key] {
			names = append(names, key)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		im.fail("", fmt.Sprintf("an amount is given for %q, but no ingredient holds that text", name), "a word of the ingredient's line")
	}
}

type dishWriter struct{ out *strings.Builder }

func (w dishWriter) line(format string, values ...any) {
	fmt.Fprintf(w.out, format+"\n", values...)
}

// crop writes a weighed crop; its states become preparation and cut.
func (w dishWriter) crop(l importLine) {
	crop, texture := cropOf(l.item)
	prepared, cut := readStates(crop, l.state)
	w.line("  - crop: %s", scalar(crop))
	w.line("    amount: %s%s", scalar(l.weighed().String()), asWritten(l))
	w.line("    prepared: %s", orCheck(prepared, AsLifted, strings.Join(Preparations(crop), " | ")))
	if texture != "" {
		w.line("    texture: %s", texture)
	}
	w.line("    cut: %s", orCheck(cut, "whole", cutForms))
	w.line("    cook: steam                # check: steam | raw")
	w.line("    until: tender              # check: just-tender | tender | soft")
}

// readStates finds what a recipe says of preparing and cutting a crop, first
// in whole phrases, then word by word.
func readStates(crop string, states []string) (prepared, cut string) {
	for _, state := range states {
		for _, phrase := range append([]string{state}, strings.FieldsFunc(state, func(r rune) bool { return r == ' ' || r == ';' || r == '.' })...) {
			if y, err := YieldOf(crop, phrase); err == nil && prepared == "" && y.Prepared != AsLifted {
				prepared = y.Prepared
			}
			if known, wrong := checkCut(phrase); wrong == nil && cut == "" {
				cut = known
			}
		}
	}
	return prepared, cut
}

func orCheck(found, otherwise, accepted string) string {
	if found != "" {
		return found
	}
	return otherwise + "   # check: " + accepted
}

// asWritten keeps the recipe's own words where the dish file says less.
func asWritten(l importLine) string {
	return "   # " + strings.ReplaceAll(l.text, "\n", " ")
}

func (w dishWriter) others(lines []importLine, crops map[int]bool) {
	first := true
	for i, l := range lines {
		if crops[i] {
			continue
		}
		if first {
			w.line("others:")
			first = false
		}
		w.item("  - ", "    ", l)
		if l.optional {
			w.line("    optional: true")
		}
		if len(l.instead) > 0 {
			w.line("    instead:")
			for _, other := range l.instead {
				w.item("      - ", "        ", other)
			}
		}
	}
}

func (w dishWriter) item(start, indent string, l importLine) {
	w.line("%sitem: %s", start, scalar(l.item))
	comment := ""
	if l.remark != "" {
		comment = asWritten(l)
	}
	w.line("%samount: %s%s", indent, scalar(l.amount.String()), comment)
	if len(l.state) > 0 {
		w.line("%sstate: %s", indent, scalar(strings.Join(l.state, ", ")))
	}
}

func (w dishWriter) method(steps []string) {
	if len(steps) == 0 {
		return
	}
	w.line("method:")
	for _, step := range steps {
		w.line("  - %s", scalar(step))
	}
}

// scalar writes a text as YAML, quoted where it must be.
func scalar(text string) string {
	out, err := yaml.Marshal(text)
	if err != nil {
		return strconv.Quote(text)
	}
	one := strings.TrimSuffix(string(out), "\n")
	if strings.Contains(one, "\n") {
		return strconv.Quote(text)
	}
	return one
}
