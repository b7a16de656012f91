package saved

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"trencher/units/strict"
)

const (
	pieJSON = `{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"]}`
	leekPie = "Serves 4\n\n400 g leeks\n2 eggs\n\nBoil the leeks.\nBake them.\n"
)

// How large a file may be is said of the file as a whole, at no line of it.
func TestWholeFilesAreFaultedAtNoLine(t *testing.T) {
	for says, data := range map[string]string{
		"the file is larger than 4 MB":               strings.Repeat(" ", 4_194_305),
		"a recipe of more than 1 MB":                 strings.Repeat("x", 1_048_577),
		"a message of more than 1 MB of text":        "From: a\nTo: b\n\n" + strings.Repeat("x", 1_048_577),
		"200001 tags in one page":                    "<p>" + strings.Repeat("<", 200_000),
		"1001 lines in one recipe":                   "Ingredients\n" + strings.Repeat("1 egg\n", 1000),
		"more than 200 recipes in one file":          manyPies(201),
		"99997 lines in one recipe":                  `{"@type":"Recipe","recipeIngredient":[1` + strings.Repeat(",1", 110_000) + `]}`,
		"this page cannot be read: html: open stack": strings.Repeat("<div>", 600),
	} {
		_, err := Read("a", []byte(data), Options{})
		var wrong *strict.Error
		require.ErrorAs(t, err, &wrong, says)
		assert.Contains(t, wrong.Problem, says)
		if says[:9] != "this page" {
			assert.Equal(t, "a 0 0", fmt.Sprint(wrong.File, " ", wrong.Line, " ", wrong.Column), says)
		}
	}
	for _, data := range []string{
		"<p><!--" + strings.Repeat("x", 4_194_304-10) + "-->", "<p>" + strings.Repeat("<!---->", 199_999),
	} {
		_, err := Read("a", []byte(data), Options{})
		assert.EqualError(t, err, "a:1:1: no recipe is marked in this page")
	}
	_, err := Read("a", []byte(pieJSON+strings.Repeat(" ", 2_000_000)), Options{})
	assert.NoError(t, err, "space around it is none of its size")
	_, err = Read("a", []byte(strings.Repeat("<div>", 600)), Options{})
	assert.ErrorContains(t, err, "a:1:1: this page cannot be read: ")
	quoted := finder{text: "x\n2 \"big\" leeks\n3 \\\"big\\\" eggs"}
	assert.Equal(t, []int{2, 3}, []int{quoted.line(`2 "big" leeks`), quoted.line(`3 "big" eggs`)}, "as it is, and as JSON writes it")
	for text, plain := range map[string]bool{"Boil the leeks.": true, "": false, "Boil.\nBake.": false, "1. Boil.": false, "Step 1: Boil.": false, "<b>Boil.</b>": false, " Boil.": false, "Boil &amp; bake.": false} {
		assert.Equal(t, plain, IsPlainStep(text), text)
	}
	one, err := Read("a", []byte(pieJSON), Options{Choice: "2"})
	assert.EqualError(t, err, `recipe "2": one recipe in the file, and none of them is that`)
	assert.Empty(t, one.Lines)
}

func manyPies(count int) string {
	var all []string
	for i := range count {
		all = append(all, fmt.Sprintf(`{"@type":"Recipe","name":"Pie %d","recipeIngredient":["%d eggs"]}`, i+1, i+1))
	}
	return "[" + strings.Join(all, ",") + "]"
}

// A thing that others refer to is found to a depth of 40, and what refers to each
// other without end comes to an end.
func TestHowDeepReferencesAreFound(t *testing.T) {
	for lists, found := range map[int]bool{0: true, 39: true, 40: false} {
		def := strings.Repeat("[", lists) + `{"@id":"#e","name":"1 egg"}` + strings.Repeat("]", lists)
		r, err := Read("a.json", []byte(`[`+def+`,{"@type":"Recipe","name":"Pie","recipeIngredient":["2 leeks",{"@id":"#e"}]}]`), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, strings.Contains(strings.Join(r.Of(Ingredient), "|"), "1 egg"), "in %d lists", lists)
	}
	for objects, found := range map[int]bool{39: true, 40: false} {
		def := strings.Repeat(`{"a":`, objects) + `{"@id":"#e","name":"1 egg"}` + strings.Repeat("}", objects)
		r, err := Read("a.json", []byte(`[`+def+`,{"@type":"Recipe","name":"Pie","recipeIngredient":["2 leeks",{"@id":"#e"}]}]`), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, strings.Contains(strings.Join(r.Of(Ingredient), "|"), "1 egg"), "in %d objects", objects)
	}
	var endless strings.Builder
	endless.WriteString(`[`)
	for i := range 30 {
		fmt.Fprintf(&endless, `{"@id":"#%d","recipeIngredient":[{"@id":"#%d"},{"@id":"#%d"}]},`, i, i+1, i+1)
	}
	endless.WriteString(`{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"],"x":{"@id":"#0"}}]`)
	r, err := Read("a.json", []byte(endless.String()), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Pie", r.Name)
	for lists, found := range map[int]bool{38: true, 39: true, 40: false} {
		nested := strings.Repeat("[", lists) + `"1 egg"` + strings.Repeat("]", lists)
		r, err := Read("a.json", []byte(`{"@type":"Recipe","name":"Pie","recipeIngredient":`+nested+`}`), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, len(r.Of(Ingredient)) == 1, "%d lists", lists)
	}
	typed, err := Read("a.json", []byte(`{"@type":{"@value":"schema:Recipe"},"name":"Pie","recipeIngredient":["1 egg"]}`), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Pie", typed.Name)
	own, err := Read("a.json", []byte(`[{"@id":"#a","x":1,"y":2},{"@id":"#a","@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"]},{"@id":"#a","@type":"Thing","b":1,"c":2,"d":3,"e":4,"f":5}]`), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Pie", own.Name, "what says something of itself is no reference")
	for range 20 {
		twice, err := Read("a.json", []byte(`{"schema:name":"Tart","name":"Pie","@type":"Recipe","recipeIngredient":["1 egg"]}`), Options{})
		require.NoError(t, err)
		assert.Equal(t, "Tart", twice.Name, "where two say one thing, always the same stands")
	}
	odd, err := Read("a.json", []byte(`{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"],"recipeInstructions":{"b":[["Boil it.",{"a":"Bake it."}]],"a":"Wash it.","c":3}}`), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"Wash it.", "Boil it.", "Bake it."}, odd.Of(Note))
}

// Things within things are read to a depth of 40 however they are marked, and 200
// recipes of a page.
func TestHowDeepMarkedThingsAreRead(t *testing.T) {
	for depth, found := range map[int]bool{1: true, 39: true, 40: true, 41: false} {
		inner := strings.Repeat(`<div itemprop="itemListElement" itemscope>`, depth-1) + `<i itemprop="name">1 egg</i>` + strings.Repeat("</div>", depth-1)
		r, err := Read("a.html", []byte(`<div itemscope itemtype="Recipe"><b itemprop="name">Pie</b><div itemprop="recipeIngredient" itemscope>`+inner+`</div></div>`), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, strings.Contains(r.String(), "1 egg"), "microdata, %d deep", depth)
		inner = strings.NewReplacer("itemprop", "property", "itemscope", `typeof="Thing"`).Replace(inner)
		r, err = Read("a.html", []byte(`<div typeof="Recipe"><b property="name">Pie</b><div property="recipeIngredient" typeof="Thing">`+inner+`</div></div>`), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, strings.Contains(r.String(), "1 egg"), "RDFa, %d deep", depth)
	}
	for parts, found := range map[int]bool{1: true, 19: true, 20: true, 21: false} { // by reference each is two deep
		page := `<div itemscope itemtype="Recipe" itemref="e1"><b itemprop="name">Pie</b></div>`
		for n := range parts {
			name := []string{"recipeIngredient", "itemListElement"}[min(n, 1)]
			page += fmt.Sprintf(`<div id="e%d" itemprop="%s" itemscope itemref="e%d">`, n+1, name, n+2)
			if n == parts-1 {
				page += `<i itemprop="name">1 egg</i>`
			}
			page += "</div>"
		}
		r, err := Read("a.html", []byte("<html>"+page), Options{})
		require.NoError(t, err)
		assert.Equal(t, found, strings.Contains(r.String(), "1 egg"), "%d references", parts)
	}
	round, err := Read("a.html", []byte(`<html><div itemscope itemtype="Recipe" itemref="x"><b itemprop="name">Pie</b><i itemprop="recipeIngredient">1 egg</i></div><div id="x" itemprop="about" itemscope itemref="x"></div>`), Options{})
	require.NoError(t, err, "what refers to itself comes to an end")
	assert.Equal(t, "Pie", round.Name)
	for way, page := range map[string]string{
		"microdata": `<div itemscope itemtype="Recipe"><b itemprop="name">Pie %d</b><i itemprop="recipeIngredient">%d eggs</i></div>`,
		"RDFa":      `<div typeof="Recipe"><b property="name">Pie %d</b><i property="recipeIngredient">%d eggs</i></div>`,
	} {
		var all strings.Builder
		all.WriteString("<html>")
		for i := range 200 {
			fmt.Fprintf(&all, page, i+1, i+1)
		}
		r, err := Read("a.html", []byte(all.String()), Options{Choice: "200"})
		require.NoError(t, err, way)
		assert.Equal(t, "Pie 200", r.Name)
		fmt.Fprintf(&all, page, 201, 201)
		_, err = Read("a.html", []byte(all.String()), Options{Choice: "1"})
		assert.EqualError(t, err, "a.html: more than 200 recipes in one file", way)
	}
}

// A block of JSON-LD that names ingredients is enough: nothing else of the page is
// asked. One that is too large, empty or no JSON is passed over for those that are.
func TestBlocksOfAPage(t *testing.T) {
	const cake = `<div itemscope itemtype="Recipe"><b itemprop="name">Cake</b><i itemprop="recipeIngredient">2 eggs</i></div>`
	block := func(text string) string { return `<script type="application/ld+json">` + text + "</script>\n" }
	for name, row := range map[string]struct{ page, is string }{
		"one ingredient":      {block(pieJSON) + cake, "Pie"},
		"no ingredients":      {block(`{"@type":"Recipe","name":"Pie"}`) + cake, "Cake"},
		"an empty block":      {block("") + block(pieJSON), "Pie"},
		"no JSON":             {block("{x}") + block(pieJSON), "Pie"},
		"a large block":       {block(strings.Replace(pieJSON, "Pie", "Tart", 1)+strings.Repeat(" ", 1_048_577-len(pieJSON))) + block(pieJSON), "Pie"},
		"as large as may be":  {block(pieJSON + strings.Repeat(" ", 1_048_576-len(pieJSON))), "Pie"},
		"of another type":     {strings.Replace(block(strings.Replace(pieJSON, "Pie", "Tart", 1)), "ld+json", "json", 1) + block(pieJSON), "Pie"},
		"in capitals":         {strings.Replace(block(pieJSON), "application/ld+json", " Application/LD+JSON; charset=utf-8", 1), "Pie"},
		"a style that is one": {`<style type="application/ld+json">` + strings.Replace(pieJSON, "Pie", "Tart", 1) + "</style>" + block(pieJSON), "Pie"},
	} {
		r, err := Read("a.html", []byte("<html>\n"+row.page), Options{})
		require.NoError(t, err, name)
		assert.Equal(t, row.is, r.Name, name)
	}
	_, err := Read("a.html", []byte("<html>\n\n "+block("{x}")+block("{y}")), Options{})
	assert.ErrorContains(t, err, "a.html:3:37: this is not JSON: invalid character 'x'", "the first that is none")
	for most, room := range map[int]int{0: 100_000, 400_000: 400_000} {
		assert.Equal(t, []bool{true, false}, []bool{takesMore(most, room-1), takesMore(most, room)}, most)
	}
	assert.Equal(t, 400_000, mostShown)
}

// takesMore tells whether a writer of so much text takes a paragraph more.
func takesMore(most, written int) bool {
	w := textWriter{most: most}
	w.WriteString(strings.Repeat("x", written))
	root, err := html.Parse(strings.NewReader("<p>y</p>"))
	if err != nil {
		panic(err)
	}
	w.node(root)
	return strings.Contains(w.String(), "y")
}

// Parts of a message within parts are read to a depth of five; a part says its own
// character set, and one that names no kind is text (RFC 2045, section 5.2).
func TestPartsOfMessages(t *testing.T) {
	const head = "From: a@example.org\nSubject: Leek pie\nMIME-Version: 1.0\n"
	nested := func(depth int) string {
		message := "Content-Type: text/plain\n\n" + leekPie
		for n := range depth {
			message = fmt.Sprintf("Content-Type: multipart/mixed; boundary=b%d\n\n--b%d\n%s\n--b%d--\n", n, n, message, n)
		}
		return head + message
	}
	for depth, read := range map[int]bool{1: true, 4: true, 5: true, 6: false} {
		r, err := Read("a.eml", []byte(nested(depth)), Options{})
		require.NoError(t, err)
		assert.Equal(t, read, len(r.Of(Ingredient)) == 2, "%d parts in parts:\n%s", depth, r)
	}
	parts := func(all ...string) string {
		return head + "Content-Type: multipart/alternative; boundary=b\n\n--b\n" + strings.Join(all, "\n--b\n") + "\n--b--\n"
	}
	const page = "<h1>Page pie</h1><p>Serves 4</p><ul><li>400 g leeks<li>2 eggs</ul><p>Boil the leeks.</p>"
	for name, row := range map[string]struct{ message, has string }{
		"a charset of its own":       {parts("Content-Type: text/plain; charset=iso-8859-1\nContent-Transfer-Encoding: quoted-printable\n\n" + strings.Replace(leekPie, "2 eggs", "2 caf=E9s", 1)), "2 cafés"},
		"a page's charset":           {parts("Content-Type: text/html; charset=iso-8859-1\nContent-Transfer-Encoding: quoted-printable\n\n" + strings.Replace(page, "2 eggs", "2 caf=E9s", 1)), "2 cafés"},
		"the last page":              {parts("Content-Type: text/html\n\n<p>no</p>", "Content-Type: text/html\n\n"+page), "Page pie"},
		"a part of no kind":          {parts("Content-Type: text/html\n\n"+page, "Content-Type: ;;\n\n"+leekPie), "Leek pie"},
		"a part that says nothing":   {parts("Content-Type: text/html\n\n"+page, "\n"+leekPie), "Leek pie"},
		"a page without a name":      {head + "Content-Type: text/html\n\n<p>Serves 4</p><ul><li>400 g leeks<li>2 eggs</ul><p>Boil the leeks.</p>", "Leek pie"},
		"a page with a name":         {head + "Content-Type: text/html\n\n" + page, "Page pie"},
		"a charset that was told":    {head + "\n" + strings.Replace(leekPie, "2 eggs", "2 caf\xe9s", 1), "2 cafés"},
		"quoted by its own encoding": {head + "Content-Transfer-Encoding: quoted-printable\n\n" + strings.Replace(leekPie, "2 eggs", "2 caf=E9s", 1), "2 cafés"},
	} {
		o := Options{}
		if strings.Contains(name, "told") || strings.Contains(name, "quoted") {
			o.Charset = "iso-8859-1"
		}
		r, err := Read("a.eml", []byte(row.message), o)
		require.NoError(t, err, name)
		assert.Contains(t, r.Name+"\n"+r.String(), row.has, name)
	}
	deep := strings.Repeat("<div>", 600)
	assert.Equal(t, deep, pageText(deep), "a page that cannot be read stands as it is")
	r, err := Read("a.eml", []byte(head+"\nSee below.\n\n> Subject: Chard pie\n>\n> 400 g chard\n> 2 eggs\n>\n> Boil the chard.\n"), Options{})
	require.NoError(t, err)
	assert.True(t, r.NameUnsure, "the message that was passed on may name it otherwise")
}

// fillers are lines that can be no title, and nothing else of a recipe.
func fillers(count int) string {
	return strings.Repeat("It rained all day long on Sunday.\n", count)
}

// Where a title is looked for: among the first lines, and right above the list.
func TestWhereTitlesAreLookedFor(t *testing.T) {
	at := func(text string) string {
		p := plainReader{lines: plainLines(text)}
		first, above := p.titles()
		return fmt.Sprint(first, " ", above)
	}
	for filled, want := range map[int]string{0: "0 0", 7: "7 7", 8: "8 8", 9: "-1 9", 40: "-1 40", 41: "-1 -1"} {
		assert.Equal(t, want, at(fillers(filled)+"Leek pie\n400 g leeks\n2 eggs\n"), filled)
	}
	for filled, want := range map[int]string{6: "7 7", 7: "8 8", 8: "-1 -1"} {
		assert.Equal(t, want, at(fillers(filled)+"Serves 4\nLeek pie\n400 g leeks\n2 eggs\n"), "a yield above it, %d", filled)
	}
	assert.Equal(t, "0 -1", at("Leek pie\nIt rained all day long on Sunday.\n400 g leeks\n"), "a sentence stands between")
	assert.Equal(t, "0 1", at("Gran's kitchen\nLeek pie\n400 g leeks\n"))
	for filled, said := range map[int]bool{11: true, 12: false} {
		r := fromPlain(fillers(filled) + "Recipe: Leek pie\n400 g leeks\n2 eggs\n")
		assert.Equal(t, said, r.Name == "Leek pie", "%d: %s", filled, r.Name)
		p := plainReader{lines: plainLines(fillers(filled) + "Leek pie\n400 g leeks\n2 eggs\n"), name: "leek pie:"}
		assert.Equal(t, said, p.titleSaid(), filled)
	}
	for filled, said := range map[int]bool{29: true, 30: false} {
		p := plainReader{lines: plainLines(fillers(filled) + "Recipe of the week\nLeek pie\n400 g leeks\n2 eggs\n")}
		assert.Equal(t, said, p.titleSaid(), filled)
	}
	last := plainReader{lines: plainLines("Recipe of the week")}
	assert.False(t, last.titleSaid(), "nothing stands under it")
	talk := plainReader{lines: plainLines("a\nWe had five of them.\nWe had all five of them.\nb\n")}
	assert.False(t, talk.talkBetween(0, 2), "five words")
	assert.True(t, talk.talkBetween(0, 3), "six")
	assert.False(t, talk.talkBetween(2, 3))
}

// Recipes told in sentences: how many words and amounts make one.
func TestRecipesToldInSentences(t *testing.T) {
	for text, want := range map[string]string{
		"BEETROOT WITH HORSERADISH. Boil 2 lb of beetroot in salted water until they are soft.": "BEETROOT WITH HORSERADISH sure",
		"Beetroot with horseradish. Boil 2 lb of beetroot in salted water until they are soft.": "Beetroot with horseradish unsure",
		"One of those nice things from home. Boil 2 lb of beetroot in salted water until soft.": "One of those nice things from home unsure",
		"A B C D E F G H. Boil 2 lb of beetroot in salted water until they are all soft.":       "A B C D E F G H sure",
		"A B C D E F G H I. Boil 2 lb of beetroot in salted water until they are all soft.":     " sure",
		"Boil them. Boil 2 lb of beetroot in salted water until they are all soft.":             " sure",
		"2 lb beetroot. Boil 2 lb of beetroot in salted water until they are all soft.":         " sure",
		"Some 2 lb beetroot. Boil 2 lb of beetroot in salted water until they are all soft.":    " sure",
	} {
		r := fromPlain(text)
		unsure := "sure"
		if r.NameUnsure {
			unsure = "unsure"
		}
		assert.Equal(t, want, r.Name+" "+unsure, text)
	}
	for text, tells := range map[string]bool{
		"Boil the leeks in salted water.": true, "Boil the leeks in water.": false, "We had 2 lb of leeks.": true, "We all had plenty of leeks.": false, "There they lie. Boil them up.": true, "We had leeks; boil them now.": true,
	} {
		assert.Equal(t, tells, tellsWhatToDo([]plainLine{{text: text}}), text)
	}
	for steps, told := range map[string]bool{"Boil 2 lb leeks with 1 oz butter.|Add 1 pint milk.": true, "Boil 2 lb leeks with 1 oz butter.|Add milk.": false} {
		var r Recipe
		for _, step := range strings.Split(steps, "|") {
			r.Lines = append(r.Lines, Line{Text: step, Role: Step})
		}
		assert.Equal(t, told, r.isTold(), steps)
		r.Lines = append(r.Lines, Line{Text: "1 egg", Role: Ingredient})
		assert.False(t, r.isTold(), "it has a list")
	}
	for before, prose := range map[string]bool{"Boil the leeks with some butter and": true, "Boil with some": false, "Boil the leeks with butter.": false, "Boil with some cream": true} {
		lines := []plainLine{{text: before, role: Step}, {text: "2 eggs, and stir it well.", role: Ingredient}}
		assert.Equal(t, prose, isProse(lines), before)
	}
}

// Whether it is certain where steps begin and end.
func TestWhenStepsAreUnsure(t *testing.T) {
	step := func(text string) plainLine { return plainLine{text: text, role: Step} }
	numbered := func(text string) plainLine { return plainLine{text: text, role: Step, mark: numberMark} }
	note := plainLine{text: "It is good.", role: Note}
	for name, row := range map[string]struct {
		lines  []plainLine
		reader plainReader
		unsure bool
	}{
		"each begins with something to do": {[]plainLine{step("Boil it."), step("Bake it.")}, plainReader{}, false},
		"one does not":                     {[]plainLine{step("Boil it."), step("Leeks are good.")}, plainReader{}, true},
		"one stood on several lines":       {[]plainLine{{text: "Boil it.", role: Step, broken: true}}, plainReader{}, true},
		"one numbers others inside":        {[]plainLine{step("Boil it. 2) Bake it.")}, plainReader{}, true},
		"numbered in order":                {[]plainLine{numbered("1. Boil it."), numbered("2. Bake it.")}, plainReader{}, false},
		"numbered anew":                    {[]plainLine{numbered("1. Boil it."), numbered("1. Bake it.")}, plainReader{}, false},
		"numbered out of order":            {[]plainLine{numbered("1. Boil it."), numbered("3. Bake it.")}, plainReader{}, true},
		"numbered and not":                 {[]plainLine{numbered("1. Boil it."), step("Bake it.")}, plainReader{}, true},
		"a note among them":                {[]plainLine{step("Boil it."), note}, plainReader{}, true},
		"a note that is settled":           {[]plainLine{step("Boil it."), {text: "Pat", role: Note, settled: true}}, plainReader{}, false},
		"a note above them":                {[]plainLine{note, step("Boil it.")}, plainReader{}, false},
		"an ingredient among them":         {[]plainLine{step("Boil it."), {text: "2 eggs", role: Ingredient}}, plainReader{}, true},
		"notes under their heading":        {[]plainLine{step("Boil it."), {text: "Notes:", role: Heading}, note}, plainReader{}, false},
		"a heading, then an ingredient":    {[]plainLine{step("Boil it."), {text: "For the sauce", role: Heading}, {text: "2 eggs", role: Ingredient}}, plainReader{}, false},
		"no full stops":                    {[]plainLine{step("Boil it")}, plainReader{bare: true}, true},
		"no full stops, but numbers":       {[]plainLine{numbered("1. Boil it")}, plainReader{bare: true}, false},
		"told in sentences":                {[]plainLine{step("Boil it.")}, plainReader{told: true}, true},
		"a sentence below the list":        {nil, plainReader{bareStep: true}, true},
		"nothing":                          {nil, plainReader{}, false},
	} {
		row.reader.lines = row.lines
		assert.Equal(t, row.unsure, row.reader.stepsUnsure(), name)
	}
}

// How long a line may be to be what it looks like.
func TestLengthsOfLines(t *testing.T) {
	roleOf := func(text string, line int) Role {
		r := fromPlain(text)
		require.Greater(t, len(r.Lines), line, text)
		return r.Lines[line].Role
	}
	long := func(text string, length int) string {
		require.LessOrEqual(t, len(text)+1, length)
		return text + " " + strings.Repeat("x", length-len(text)-1)
	}
	for length, is := range map[int]bool{59: true, 60: false} {
		assert.Equal(t, is, roleOf("Ingredients\n400 g leeks\n2 eggs\nMethod\nBoil the leeks.\n"+long("This is sufficient for approximately twelve", length), 5) == Yield, "below the steps, %d", length)
		assert.Equal(t, is, roleOf("Leek pie\n"+long("Serves four of the hungry", length)+"\nIngredients\n400 g leeks\n", 1) == Yield, "above the list, %d", length)
	}
	for length, is := range map[int]bool{79: true, 80: false} {
		lines := "Ingredients\n400 g leeks\n" + long("Cooking time: about 20 minutes in the oven", length) + "\n2 eggs\n"
		assert.Equal(t, is, roleOf(lines, 2) == Note, length)
	}
	for text, is := range map[string]bool{
		strings.Repeat("a ", 11) + "a": true, strings.Repeat("a ", 12) + "a": false, strings.Repeat("é", 80): true, strings.Repeat("é", 81): false,
		"To stew celery": true, "To stew": false, "To stew: celery": false, "home": false, "Home fries": true, "Home | About": false, "7 leeks' pie": true, "Leek pie,": false,
	} {
		assert.Equal(t, is, isTitle(text), text)
	}
	words := func(count int) string { return "leeks" + strings.Repeat(" leeks", count-1) }
	for text, is := range map[string]bool{
		words(5) + ".": false, words(6) + ".": true, words(20): false, words(21): true, "Boil leeks.": true, "Boil leeks now": false, "Boil the leeks now": true, "2 " + words(6) + ".": false,
	} {
		assert.Equal(t, is, isSentence(text), text)
	}
	for count, is := range map[int]bool{7: true, 8: false} {
		p := plainReader{lines: []plainLine{{text: words(count) + ":"}, {text: "x"}}}
		assert.Equal(t, is, p.isGroupHead(0), count)
		assert.False(t, p.isGroupHead(1), "nothing stands under it")
	}
	for count, is := range map[int]bool{4: true, 5: false} {
		p := plainReader{lines: []plainLine{{text: words(count)}, {text: "2 eggs", inward: true}}}
		assert.Equal(t, is, p.standsOut(0), count)
	}
	for count, is := range map[int]bool{2: false, 3: true} {
		p := plainReader{lines: []plainLine{{text: "2 eggs", role: Ingredient}, {text: words(count) + ".", gap: true}}}
		assert.Equal(t, is, p.byLook(1, Ingredient) == Step && p.bareStep, count)
	}
	for length, is := range map[int]bool{49: false, 50: true} {
		before := plainLine{text: strings.Repeat("x", length), role: Ingredient}
		assert.Equal(t, is, continues(before, plainLine{text: "peeled", role: Ingredient}), length)
	}
	assert.Len(t, plainLines("175 g flour, 85 g butter, 1 egg yolk,"), 3, "nothing stands behind the last comma")
	for text, want := range map[string]string{"=ab=": "=ab=", "=abc=": "abc", "~ab": "~ab", "a=bc=": "a=bc=", "=abcd": "=abcd", "=====": ""} {
		lines := plainLines(text)
		if want == "" {
			assert.Empty(t, lines, text)
			continue
		}
		require.Len(t, lines, 1)
		assert.Equal(t, want, lines[0].text)
	}
}

// What stands below the steps, and in what company.
func TestWhatStandsBelowTheSteps(t *testing.T) {
	step := plainLine{text: "1. Boil it.", role: Step, mark: numberMark}
	p := plainReader{lines: []plainLine{{text: "Leeks are good."}}}
	assert.False(t, p.afterNumbered(0) || p.isFarewell(0), "nothing stands above it")
	thanks := plainLine{text: "Thanks to Pat!", gap: true, role: Note}
	more := plainLine{text: "See the other side."}
	for name, row := range map[string]struct {
		lines           []plainLine
		after, farewell bool
	}{
		"set apart, somebody speaks":   {[]plainLine{step, thanks}, true, true},
		"set apart, nobody speaks":     {[]plainLine{step, {text: "See the other side.", gap: true}}, true, false},
		"not set apart":                {[]plainLine{step, more}, false, false},
		"below what somebody says":     {[]plainLine{step, thanks, more}, true, true},
		"below a note that is settled": {[]plainLine{step, {text: thanks.text, gap: true, role: Note, settled: true}, more}, true, false},
		"begins with something to do":  {[]plainLine{step, {text: "Serve it, love.", gap: true}}, false, false},
		"below steps without numbers":  {[]plainLine{{text: "Boil it.", role: Step}, thanks}, false, true},
		"below no steps":               {[]plainLine{{text: "2 eggs", role: Ingredient}, thanks}, false, true},
	} {
		p := plainReader{lines: row.lines}
		assert.Equal(t, []bool{row.after, row.farewell}, []bool{p.afterNumbered(len(row.lines) - 1), p.isFarewell(len(row.lines) - 1)}, name)
	}
	for name, row := range map[string]struct {
		lines []plainLine
		on    bool
	}{
		"an amount below it":      {[]plainLine{{text: "squeeze lemon juice"}, {text: "2 eggs"}}, true},
		"an amount further below": {[]plainLine{{text: "squeeze lemon juice"}, {text: "salt"}, {text: "2 eggs"}}, true},
		"it is an amount itself":  {[]plainLine{{text: "2 eggs"}, {text: "salt"}}, false},
		"a gap between":           {[]plainLine{{text: "squeeze lemon juice"}, {text: "2 eggs", gap: true}}, false},
		"another list":            {[]plainLine{{text: "squeeze lemon juice"}, {text: "2 eggs", mark: bulletMark}}, false},
		"a sentence between":      {[]plainLine{{text: "squeeze lemon juice"}, {text: "Boil it."}, {text: "2 eggs"}}, false},
		"a gap above it":          {[]plainLine{{text: "squeeze lemon juice", gap: true}, {text: "2 eggs"}}, true},
		"nothing":                 {[]plainLine{{text: "squeeze lemon juice"}}, false},
	} {
		p := plainReader{lines: row.lines}
		assert.Equal(t, row.on, p.listGoesOn(0), name)
	}
	assert.Equal(t, "175 g flour|85 g butter|1 egg yolk, from the hens", strings.Join(manyAmounts("175 g flour, 85 g butter, 1 egg yolk, from the hens"), "|"))
	assert.Equal(t, "175 g flour|85 g butter|1 egg yolk|sea salt", strings.Join(manyAmounts("175 g flour, 85 g butter, 1 egg yolk, sea salt"), "|"))
	read := func(properties string) Recipe {
		r, err := Read("a.json", []byte(`{"@context":{"name":{"@id":"schema:name"},"x":"y/","z":"y#"},"@type":"Recipe","name":"Pie","x":"1","recipeIngredient":["1 egg"],`+properties+`}`), Options{})
		require.NoError(t, err, properties)
		return r
	}
	part := `,"name":"The dough","itemListElement":[{"@type":"HowToDirection","text":"Knead it."}]}]`
	section, one := read(`"recipeInstructions":[{"@type":"HowToSection"`+part), read(`"recipeInstructions":[{"@type":"HowToStep"`+part)
	assert.Equal(t, []string{"The dough"}, section.Of(Heading))
	assert.Empty(t, one.Of(Heading), "a step's name is no heading")
	assert.Equal(t, []string{"Knead it."}, one.Of(Step))
	assert.Equal(t, "Pie", one.Name)
}

// A line is only one with the one before where that was broken for the width of its
// list: its first word had no room there, and begins no ingredient.
func TestLinesOfAListAreNoBrokenLine(t *testing.T) {
	for list, want := range map[string][]string{
		"300 g runner beans, stringed & sliced on the diagonal\n4 tbsp extra-virgin olive oil, plus extra to serve\njuice of ½ lemon\nsmall bunch flat-leaf parsley, leaves picked and chopped\nsalt and freshly ground black pepper": {
			"300 g runner beans, stringed & sliced on the diagonal", "4 tbsp extra-virgin olive oil, plus extra to serve", "juice of ½ lemon", "small bunch flat-leaf parsley, leaves picked and chopped", "salt and freshly ground black pepper"},
		"1 tbsp olive oil, plus extra to brush\n1 bunch silverbeet (about 400g), white stems removed, leaves\nfinely shredded": {
			"1 tbsp olive oil, plus extra to brush", "1 bunch silverbeet (about 400g), white stems removed, leaves finely shredded"},
		"2 carrots, peeled\n700 g floury potatoes, peeled and cut into large, even\nchunks\nchives\n400 g leeks, trimmed, washed and sliced into thin rings": { // the second would have had room
			"2 carrots, peeled", "700 g floury potatoes, peeled and cut into large, even chunks", "chives", "400 g leeks, trimmed, washed and sliced into thin rings"},
	} {
		recipe, err := Read("list.txt", []byte("Bean salad\nServes 4\n\n"+list+"\n\nBoil all of it until it is tender, then drain it well and leave it to cool down.\n"), Options{})
		require.NoError(t, err)
		var lines []string
		for _, l := range recipe.Lines {
			if l.Role == Ingredient {
				lines = append(lines, l.Text)
			}
		}
		assert.Equal(t, want, lines)
	}
}
