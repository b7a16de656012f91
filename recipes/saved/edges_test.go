package saved

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// What pages get wrong in their JSON is put right; what stands in a text never changes.
func TestMendJSON(t *testing.T) {
	for broken, want := range map[string]string{
		`{"a":1,}`: `{"a":1}`, `[1,2,]`: `[1,2]`, `[1,,2]`: `[1,2]`, `[1, /* two */ 2]`: `[1,  2]`, `[1,/**/2]`: `[1,2]`, "[1, // two\n2]": "[1, 2]", `["a,]"]`: `["a,]"]`, `["// no"]`: `["// no"]`, "[\"a\nb\tc\"]": `["a\u000ab\u0009c"]`, `["a\ b\é\"c\\"]`: `["a bé\"c\\"]`, `["\u00e9\/"]`: `["\u00e9\/"]`,
		"[1,\u00a02]": "[1, 2]", "[1,\u00a0]": "[1 ]", `<!-- [1] -->`: `[1]`, `//<![CDATA[ [1] //]]>`: `[1]`, `[1];`: `[1]`, "\ufeff[1]": `[1]`, `[1, /* no end`: `[1, `, `[1] // no end`: `[1] `, `["no end`: `["no end`, `["no end\`: `["no end\`, `["a\q`: `["aq`, `["a\n`: `["a\n`, "[\"é\u00a0\"]": "[\"é\u00a0\"]", ",": "", `[1 ,] `: `[1 ]`, "[\"\x1f \"]": `["\u001f "]`,
	} {
		assert.Equal(t, want, mendJSON(broken), broken)
	}
}

// A recipe may say its properties in many ways; what is nothing is left out.
func TestLinkedProperties(t *testing.T) {
	read := func(properties string) Recipe {
		r, err := Read("a.json", []byte(`{"@type":"Recipe","name":"Pie",`+properties+`}`), Options{})
		require.NoError(t, err, properties)
		return r
	}
	for properties, want := range map[string]string{
		`"recipeYield":["6","6 servings"]`: "6 servings", `"recipeYield":["a dozen","12"]`: "a dozen", `"recipeYield":["some","a lot"]`: "some", `"recipeYield":4`: "4", `"recipeYield":2.5`: "2.5", `"yield":"4 jars"`: "4 jars", `"recipeYield":["12 big ones","6"]`: "12 big ones",
		`"recipeYield":{"@type":"QuantitativeValue","value":4,"unitText":"portions"}`: "4 portions", `"recipeYield":{"value":"4"}`: "4", `"recipeYield":{"@value":"4 of us"}`: "4 of us", `"recipeYield":{"unitText":"portions"}`: "", `"recipeYield":true`: "", `"recipeYield":{"value":4,"unitCode":"C62"}`: "4 C62",
	} {
		assert.Equal(t, want, first(read(properties+`,"recipeIngredient":["1 egg"]`).Of(Yield)), properties)
	}
	for properties, want := range map[string][]string{
		`"recipeIngredient":"1 egg\n2 leeks"`: {"1 egg", "2 leeks"}, `"recipeIngredient":[],"ingredients":["1 egg"]`: {"1 egg"}, `"recipeIngredient":["1 egg"],"ingredients":["2 eggs"]`: {"1 egg"}, `"ingredient":"1 egg"`: {"1 egg"}, `"supply":[{"name":"egg","requiredQuantity":1}]`: {"1 egg"},
		`"recipeIngredient":{"@list":["1 egg","2 leeks"]}`: {"1 egg", "2 leeks"}, `"recipeIngredient":[["1 egg"],["2 leeks"]]`: {"1 egg", "2 leeks"}, `"recipeIngredient":[{"text":"egg","quantity":"1"}]`: {"1 egg"}, `"recipeIngredient":[{"value":3,"name":"eggs"}]`: {"3 eggs"}, `"recipeIngredient":[3]`: {"3"}, `"recipeIngredient":["", " ", "1 egg"]`: {"1 egg"},
		`"recipeIngredient":["1&nbsp;egg &amp; <b>more</b>"]`: {"1 egg & more"}, "\"recipeIngredient\":[\"1 e\u200cgg\u200b two\u0007\"]": {"1 egg two"},
	} {
		assert.Equal(t, want, read(properties).Of(Ingredient), properties)
	}
	for properties, want := range map[string]string{`"cookTime":"PT20M"`: "PT20M", `"totalTime":"PT50M"`: "PT50M", `"cookTime":"PT20M","totalTime":"PT50M"`: "PT20M", `"name":"x"`: ""} {
		assert.Equal(t, want, read(properties+`,"recipeIngredient":["1 egg"]`).CookTime, properties)
	}
	for properties, unsure := range map[string]bool{`"recipeInstructions":"Boil it. Then serve."`: true, `"recipeInstructions":"Boil it."`: false, `"recipeInstructions":["Boil it. Serve."]`: true, `"recipeInstructions":["Boil it. Then serve.","Eat."]`: false, `"recipeInstructions":["Boil. 2) Serve it.","Eat."]`: true} {
		assert.Equal(t, unsure, read(properties+`,"recipeIngredient":["1 egg"]`).StepsUnsure, properties)
	}
	odd := read(`"recipeIngredient":["1 egg"],"recipeInstructions":{"@type":"ItemList","description":"Boil it.","more":{"words":["Serve it."],"url":"http://x","image":"y","@id":"z"}}`)
	assert.Equal(t, []string{"Boil it.", "Serve it."}, odd.Of(Note), "what has no shape that is known is kept")
	assert.Equal(t, "Steaming", read(`"cookingMethod":["Steaming","Boiling"],"recipeIngredient":["1 egg"]`).Method)
	assert.Equal(t, []Property{{"a b", " v "}, {"c", "w"}}, read(`"recipeIngredient":["1 egg"],"additionalProperty":[{"name":"a <i>b</i>","value":" v "},[{"name":"c","value":"w"}],{"name":3,"value":"x"},{"name":"d","value":4}]`).Properties)
	assert.Nil(t, read(`"recipeIngredient":["1 egg"],"additionalProperty":"x"`).Properties)
}

// A recipe is found however a page wraps it, to a depth of 40, and so are 200 of them.
func TestHowDeepARecipeIsFound(t *testing.T) {
	const pie = `{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"]}`
	wrapped := func(depth int) string {
		return strings.Repeat(`{"mainEntity":`, depth) + pie + strings.Repeat("}", depth)
	}
	for depth, found := range map[int]bool{0: true, 1: true, 40: true, 41: false} {
		_, err := Read("a.json", []byte(wrapped(depth)), Options{})
		assert.Equal(t, found, err == nil, depth)
	}
	for _, key := range []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item", "hasPart", "about", "subjectOf", "@included", "schema:about", "https://schema.org/about"} {
		r, err := Read("a.json", []byte(`{"`+key+`":[`+pie+`]}`), Options{})
		require.NoError(t, err, key)
		assert.Equal(t, "Pie", r.Name)
	}
	_, err := Read("a.json", []byte(`{"elsewhere":`+pie+`}`), Options{})
	assert.Error(t, err)
	for _, kind := range []string{`"@type":"Recipe"`, `"type":"Recipe"`, `"rdf:type":"schema:Recipe"`, `"@type":["Thing","https://schema.org/Recipe"]`} {
		_, err := Read("a.json", []byte(`{`+kind+`,"name":"Pie","recipeIngredient":["1 egg"]}`), Options{})
		assert.NoError(t, err, kind)
	}
	many := func(count int) string {
		var all []string
		for i := range count {
			all = append(all, fmt.Sprintf(`{"@type":"Recipe","name":"Pie %d","recipeIngredient":["%d eggs"]}`, i+1, i+1))
		}
		return "[" + strings.Join(all, ",") + "]"
	}
	r, err := Read("a.json", []byte(many(200)), Options{Choice: "200"})
	require.NoError(t, err)
	assert.Equal(t, "Pie 200", r.Name)
	_, err = Read("a.json", []byte(many(201)), Options{Choice: "1"})
	assert.EqualError(t, err, "a.json: more than 200 recipes in one file")
	_, err = Read("a.json", []byte(many(21)), Options{})
	assert.ErrorContains(t, err, "21 recipes in one file")
	var told interface{ Hint() string }
	require.ErrorAs(t, err, &told)
	assert.Contains(t, told.Hint(), "20 Pie 20")
	assert.NotContains(t, told.Hint(), "21 Pie 21")
	_, err = Read("a.json", []byte(many(2)), Options{Choice: "0"})
	assert.Error(t, err)
	same, err := Read("a.json", []byte("["+pie+","+pie+"]"), Options{})
	require.NoError(t, err, "the same twice is one")
	assert.Equal(t, "Pie", same.Name)
	_, err = Read("a.json", []byte(`[{"@type":"Recipe","name":"A"},{"@type":"Recipe","name":"B"}]`), Options{})
	assert.ErrorContains(t, err, "2 recipes in one file")
}

// References are followed to what has most to say, and not without end.
func TestReferences(t *testing.T) {
	r, err := Read("a.json", []byte(`[{"@id":"#egg"},{"@id":"#egg","@type":"Thing","name":"1 egg"},{"@type":"Recipe","name":"Pie","recipeIngredient":[{"@id":"#egg"},{"@id":"#none"}],"recipeInstructions":[{"@id":"#none"}]}]`), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"1 egg"}, r.Of(Ingredient))
	_, err = Read("a.json", []byte(`[{"@id":"a","x":{"@id":"b"},"name":"A"},{"@id":"b","x":{"@id":"a"},"name":"B"},{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg",{"@id":"a"}]}]`), Options{})
	assert.NoError(t, err)
	nested := `"1 egg"`
	for range 45 {
		nested = `[` + nested + `]`
	}
	_, err = Read("a.json", []byte(`{"@type":"Recipe","name":"Pie","recipeIngredient":["2 eggs",`+nested+`]}`), Options{})
	assert.NoError(t, err)
	context, err := Read("a.json", []byte(`{"@context":{"@vocab":"https://schema.org/","pre":"https://schema.org/","what":"https://schema.org/recipeIngredient","hash":"x#","odd":3},"@type":"Recipe","name":"Pie","what":["1 egg"],"hash":"no"}`), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"1 egg"}, context.Of(Ingredient))
}

// A line is told where it stands; of what is not there letter by letter nothing is
// told, and after twenty such it is not looked for any more.
func TestWhereLinesStand(t *testing.T) {
	text := "{\"@type\":\"Recipe\",\"name\":\"Pie\",\n\"recipeIngredient\":[\"1 egg\",\n\"2 \\\"big\\\" leeks\",\n\"3 &amp; 4\"],\n\"recipeInstructions\":[\"Boil.\"]}"
	r, err := Read("a.json", []byte(text), Options{})
	require.NoError(t, err)
	var places []int
	for _, l := range r.Lines {
		places = append(places, l.Line)
	}
	assert.Equal(t, []int{1, 2, 3, 0, 5}, places)
	f := finder{text: "a\nb\nc"}
	assert.Equal(t, []int{1, 3, 3}, []int{f.line("a"), f.line("c"), f.line("c")}, "it looks on from the line before")
	assert.Zero(t, f.line("a"))
	for range 18 {
		assert.Zero(t, f.line("x"))
	}
	assert.Equal(t, 3, f.line("c"), "nineteen are missed")
	assert.Zero(t, f.line("x"))
	assert.Zero(t, f.line("c"))
}

// The words of an element, or its attribute where it has one for them (HTML Living
// Standard, Microdata, values).
func TestValuesOfElements(t *testing.T) {
	for element, want := range map[string]string{
		`<meta itemprop="name" content="Pie">`: "Pie", `<a itemprop="name" href="Pie">x</a>`: "Pie", `<img itemprop="name" src="Pie">`: "Pie", `<time itemprop="name" datetime="Pie">x</time>`: "Pie", `<data itemprop="name" value="Pie">x</data>`: "Pie", `<a itemprop="name">Pie</a>`: "Pie", `<span itemprop="name" href="x">Pie</span>`: "Pie", `<p itemprop="name" content="">x</p>`: "",
		`<p itemprop="name"><b>Pie</b></p>`: "Pie", `<p itemprop="name">Pie<script>x</script><style>y</style></p>`: "Pie", `<div itemprop="author" itemscope><i itemprop="name">Somebody</i></div><p itemprop="name">Pie</p>`: "Pie", `<div itemscope><i itemprop="name">Not this</i></div><p itemprop="name">Pie</p>`: "Pie", `<link itemprop="name" href="Pie">`: "Pie", `<meter itemprop="name" value="Pie">x</meter>`: "Pie",
	} {
		r, err := Read("a.html", []byte(`<html><div itemscope itemtype="http://schema.org/Thing https://schema.org/Recipe">`+element+`<p itemprop="recipeIngredient ingredients">1 egg</p><p itemprop="recipeIngredient">2 leeks</p></div></html>`), Options{})
		require.NoError(t, err, element)
		assert.Equal(t, want, r.Name, element)
		assert.Equal(t, []string{"1 egg", "2 leeks"}, r.Of(Ingredient), element)
	}
	r, err := Read("a.html", []byte(`<html><div typeof="schema:Thing schema:Recipe"><div property="author" typeof="Person"><i property="name">Somebody</i></div><div typeof="Person"><i property="name">Nobody</i></div><h1 property="schema:name">Pie</h1><i property="recipeIngredient">1 egg</i><p property="recipeInstructions" typeof="HowToStep"><b property="text">Boil.</b></p></div></html>`), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"Pie", "1 egg", "Boil."}, []string{r.Name, r.Of(Ingredient)[0], r.Of(Step)[0]})
	deep := strings.Repeat(`<div itemprop="x" itemscope>`, 50)
	_, err = Read("a.html", []byte(`<html><div itemscope itemtype="Recipe"><p itemprop="recipeIngredient">1 egg</p>`+deep+`</div></html>`), Options{})
	assert.NoError(t, err)
	both, err := Read("a.html", []byte(`<html><script type="application/ld+json">{"@type":"Recipe","name":"Empty"}</script><div itemscope itemtype="Recipe"><i itemprop="name">Pie</i><p itemprop="recipeIngredient">1 egg</p></div></html>`), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Pie", both.Name, "one that names no ingredients gives way to one that does")
}

// A page that marks nothing is read by what it shows: headings, lists, cells, without
// what stands around them.
func TestPagesByWhatTheyShow(t *testing.T) {
	r, err := Read("a.html", []byte(`<html><head><title>x</title></head><body><nav>Home</nav><h1>Leek pie</h1><p>Serves 4</p><h2>Ingredients</h2><ul><li>400 g leeks<li>2 eggs</ul><dl><dt>butter</dt><dd>50 g</dd></dl><table><tr><th>salt</th><td>1 tsp</td></tr></table>
<h2>Method</h2><p>Boil the leeks.<br>Bake them.</p><aside>Buy!</aside><form>Search</form><footer>end</footer><template>t</template></body></html>`), Options{})
	require.NoError(t, err)
	assert.True(t, r.Unmarked)
	assert.Equal(t, "Leek pie", r.Name)
	assert.Equal(t, []string{"400 g leeks", "2 eggs", "butter : 50 g", "salt: 1 tsp"}, r.Of(Ingredient))
	assert.Equal(t, []string{"Boil the leeks.", "Bake them."}, r.Of(Step))
	for _, l := range r.Lines {
		assert.Zero(t, l.Line)
		assert.NotContains(t, "Home Buy! Search end t x", l.Text)
	}
	_, err = Read("a.html", []byte("<p>1 egg</p>"), Options{})
	assert.ErrorContains(t, err, "no recipe is marked in this page", "one ingredient is no recipe")
	two := `<h1>Leek pie</h1><h1>And more</h1><h2>Ingredients</h2><ul><li>400 g leeks<li>2 eggs</ul><p>Boil the leeks.</p>`
	r, err = Read("a.html", []byte(two), Options{})
	require.NoError(t, err)
	assert.NotEqual(t, "And more", r.Name)
	told, err := Read("a.html", []byte("<h1>Leeks</h1><p>Boil 400 g of leeks with a pinch of salt and add 50 g butter.</p>"), Options{})
	require.NoError(t, err, "three amounts in its sentences are a recipe")
	assert.Empty(t, told.Of(Ingredient))
	_, err = Read("a.html", []byte("<h1>Leeks</h1><p>Boil 400 g of leeks with a pinch of salt and add butter.</p>"), Options{})
	assert.Error(t, err)
	assert.Equal(t, []string{"a", "b"}, strings.Fields(pageText("<p>a<b>b</b></p>")), "elements side by side are words of their own")
}

// Messages: their plain text before a page, decoded as they say (RFC 2045, RFC 2047).
func TestMessages(t *testing.T) {
	const head = "From: a@example.org\nSubject: Leek pie\nMIME-Version: 1.0\n"
	const text = "Serves 4\n\n400 g leeks\n2 eggs\n\nBoil the leeks.\nBake them.\n"
	const page = "<h1>Leek pie</h1><p>Serves 4</p><ul><li>400 g leeks<li>2 eggs</ul><p>Boil the leeks.</p><p>Bake them.</p>"
	part := func(kind, body string) string { return "--b\nContent-Type: " + kind + "\n\n" + body + "\n" }
	for name, message := range map[string]string{
		"plain":             head + "\n" + text,
		"of no known kind":  head + "Content-Type: ;;\n\n" + text,
		"plain before page": head + "Content-Type: multipart/alternative; boundary=b\n\n" + part("text/html", "<p>no</p>") + part("text/plain", text) + "--b--\n",
		"an empty part":     head + "Content-Type: multipart/alternative; boundary=b\n\n" + part("text/plain", "") + part("text/html", page) + "--b--\n",
		"parts of parts":    head + "Content-Type: multipart/mixed; boundary=a\n\n--a\nContent-Type: multipart/alternative; boundary=b\n\n" + part("text/plain", text) + "--b--\n--a--\n",
		"a page alone":      head + "Content-Type: text/html\n\n" + page,
		"base64":            head + "Content-Transfer-Encoding: BASE64\n\nU2VydmVzIDQKCjQwMCBnIGxlZWtzCjIgZWdncwoKQm9pbCB0aGUgbGVla3MuCkJha2UgdGhlbS4K\n",
		"a folded head":     "Subject: Leek\n pie\nFrom: a@example.org\n\n" + text,
		"a byte order mark": "\ufeff" + head + "\n" + text,
		"latin":             head + "Content-Type: text/plain; charset=iso-8859-1\n\n" + text,
		"a bad subject":     strings.Replace(head, "Leek pie", "=?x-none?q?Leek?=", 1) + "\nLeek pie\n\n" + text,
	} {
		r, err := Read("a.eml", []byte(message), Options{})
		require.NoError(t, err, name)
		assert.Equal(t, []string{"400 g leeks", "2 eggs"}, r.Of(Ingredient), name)
		assert.Equal(t, []string{"Boil the leeks.", "Bake them."}, r.Of(Step), name)
		if name != "a bad subject" {
			assert.Equal(t, "Leek pie", r.Name, name)
		}
	}
	for subject, unsure := range map[string]bool{"Leek pie": false, "Fwd: Leek pie": true, "Re: re : Leek pie": true, "Leek pie!": true, "Hello there": true} {
		r, err := Read("a.eml", []byte(strings.Replace(head, "Leek pie", subject, 1)+"\n"+text), Options{})
		require.NoError(t, err, subject)
		assert.Equal(t, unsure, r.NameUnsure, subject)
	}
	inner, err := Read("a.eml", []byte(head+"\nSee below.\n\n> Subject: Chard pie\n>\n> 400 g chard\n> 2 eggs\n>\n> Boil the chard.\n"), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Chard pie", inner.Name)
	_, err = Read("a.eml", []byte(head+"\n"+strings.Repeat("x", MostText+1)), Options{})
	assert.EqualError(t, err, "a.eml: a message of more than 1 MB of text")
	_, err = Read("a.eml", []byte(head+"Content-Type: text/plain; charset=x-none\n\n"+text), Options{})
	assert.Error(t, err)
	broken, err := Read("a.eml", []byte("From: a\nTo: b\nno head\n400 g leeks\n"), Options{})
	require.NoError(t, err, "a head that breaks off is read as text")
	assert.Equal(t, []string{"400 g leeks"}, broken.Of(Ingredient))
	for text, is := range map[string]bool{"From: a\nTo: b": true, "From: a\n b": true, "From: a\n\tb": true, "From: a\nb": false, "Serves: 4\nFrom: a": false, "From: a": false} {
		assert.Equal(t, is, isMail(text), text)
	}
}

// How large a file, a text and a recipe may be, to the byte and the line.
func TestBoundsOfFiles(t *testing.T) {
	text := func(size int) []byte { return []byte("Ingredients\n1 egg\n" + strings.Repeat("x", size-18)) }
	_, err := Read("a.txt", text(MostText), Options{})
	assert.NoError(t, err)
	_, err = Read("a.txt", text(MostText+1), Options{})
	assert.EqualError(t, err, "a.txt: a recipe of more than 1 MB")
	lines := func(count int) []byte { return []byte("Ingredients\n" + strings.Repeat("1 egg\n", count-1)) }
	r, err := Read("a.txt", lines(1000), Options{})
	require.NoError(t, err)
	assert.Len(t, r.Lines, 1000)
	_, err = Read("a.txt", lines(1001), Options{})
	assert.EqualError(t, err, "a.txt: 1001 lines in one recipe")
	_, err = Read("a.txt", nil, Options{})
	assert.EqualError(t, err, "a.txt:1:1: nothing is in this file")
	_, err = Read("a.json", []byte(`{"@type":"Person"}`), Options{})
	assert.EqualError(t, err, "a.json:1:1: no recipe in this file")
	_, err = Read("a.txt", make([]byte, MostBytes+1), Options{})
	assert.EqualError(t, err, "a.txt: the file is larger than 4 MB")
	_, err = Read("a.html", []byte("<p>x"), Options{})
	assert.EqualError(t, err, "a.html:1:1: no recipe is marked in this page")
	_, err = Read("a.html", []byte("<"+strings.Repeat("<", mostTags)), Options{})
	assert.EqualError(t, err, "a.html: 200001 tags in one page")
	_, err = Read("a.txt", []byte{0xff, 0x41}, Options{})
	assert.Error(t, err, "a byte that is no letter")
	for body, is := range map[string]bool{"{": true, "[": true, "[]": false, "[ ]": false, "[] @type": true, "[{": true, "[\"a": true, "[[": true, "[/": true, "[<": true, "[x] 1 egg": false, "[12.7.31] a": false, "x": false} {
		assert.Equal(t, is, looksLikeJSON(body), body)
	}
	_, err = Read("a.json", []byte("{\n \"a\": x}"), Options{})
	assert.ErrorContains(t, err, "a.json:2:7: this is not JSON")
}

// Roles in words, and a recipe for a person to look at.
func TestRecipeInWords(t *testing.T) {
	r := Recipe{Lines: []Line{{Text: "Pie", Role: Title}, {Text: "1 egg", Role: Ingredient}, {Text: "by me"}}}
	assert.Equal(t, "title      Pie\ningredient 1 egg\nnote       by me\n", r.String())
	var roles []string
	for role := Note; role <= Step; role++ {
		roles = append(roles, role.String())
	}
	assert.Equal(t, []string{"note", "title", "yield", "heading", "ingredient", "step"}, roles)
	assert.Nil(t, r.Of(Step))
}

// The finder looks at the very place it stands, for the text as JSON writes it and as it
// is.
func TestFinderAtItsPlace(t *testing.T) {
	f := finder{text: "a\\\"b\nc"}
	assert.Equal(t, []int{1, 2}, []int{f.line("a\"b"), f.line("c")})
	f = finder{text: "\nc"}
	assert.Equal(t, 2, f.line("c"))
}

// Of two elements with one id the first is meant (HTML Living Standard: an id is the
// only one of its tree; browsers take the first).
func TestFirstOfTwoIDs(t *testing.T) {
	r, err := Read("a.html", []byte(`<html><p id="x" itemprop="name">Pie</p><p id="x" itemprop="name">Cake</p><p itemprop="name">Nobody's</p><div itemscope itemtype="Recipe" itemref="x  x none"><i itemprop="recipeIngredient">1 egg</i></div></html>`), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Pie", r.Name)
	assert.Equal(t, []string{"Pie"}, r.Of(Title))
	var many []string
	for i := range 45 {
		many = append(many, fmt.Sprintf(`<p id="i%d" itemprop="recipeIngredient">%d eggs</p>`, i, i+1))
	}
	refs := "i0"
	for i := 1; i < 45; i++ {
		refs += fmt.Sprintf(" i%d", i)
	}
	r, err = Read("a.html", []byte("<html>"+strings.Join(many, "")+`<div itemscope itemtype="Recipe" itemref="`+refs+`"></div></html>`), Options{})
	require.NoError(t, err)
	assert.Len(t, r.Of(Ingredient), 40, "so many references are followed")
}

// Names and what is said of them stand on one line, whatever space is between them.
func TestListsOfNamesAndWhatTheyAre(t *testing.T) {
	show := func(page string) string {
		root, err := html.Parse(strings.NewReader(page))
		require.NoError(t, err)
		w := textWriter{layout: true}
		w.node(root)
		var lines []string
		for line := range strings.Lines(w.String()) {
			if line = strings.Join(strings.Fields(line), " "); line != "" {
				lines = append(lines, line)
			}
		}
		return strings.Join(lines, "|")
	}
	for page, want := range map[string]string{
		"<dl><dt>butter</dt><dd>50 g</dd></dl>": "butter : 50 g", "<dl>\n<dt>butter</dt>\n<dd>50 g</dd>\n<dt>eggs</dt>\n<dd>2</dd></dl>": "butter : 50 g|eggs : 2", "<dl><dt>butter</dt><dt>lard</dt><dd>50 g</dd></dl>": "butter|lard : 50 g", "<dl><dd>50 g</dd><dd>2 eggs</dd></dl>": "50 g|2 eggs", "<dl><dt>butter</dt></dl>": "butter",
		"<dl><dt>butter</dt><dd>50 g</dd><dd>soft</dd></dl>": "butter : 50 g|soft", "<p>a</p><p>b</p>": "a|b", "<ul><li>a<li>b</ul>": "• a|• b", "<h2>a</h2>b": "# a|b", "a<br>b": "a|b", "<table><tr><td>a<td>b</tr></table>": "a b", "<span>a</span><em>b</em>": "a b", "<dt>a</dt><p>b</p>": "a|b", "<div><dt>a</dt></div><dd>b</dd>": "a|b", "<dt>a</dt><div>b</div><dd>c</dd>": "a|b|c",
	} {
		assert.Equal(t, want, show(page), page)
	}
	w := textWriter{}
	w.WriteString(strings.Repeat("x", mostText-1)) // and a line break before the paragraph
	root, err := html.Parse(strings.NewReader("<p>y</p>"))
	require.NoError(t, err)
	w.node(root)
	assert.True(t, strings.Contains(w.String(), "y"), "so long a text goes on")
	w.Reset()
	w.WriteString(strings.Repeat("x", mostText))
	w.node(root)
	assert.False(t, strings.Contains(w.String(), "y"), "a longer one does not")
}

// A signature below "--" is no part of a recipe where it is short: six lines at most.
func TestSignatures(t *testing.T) {
	for lines, settled := range map[int]bool{1: true, 5: true, 6: true, 7: false} {
		text := "Leek pie\n\n400 g leeks\n2 eggs\n\nBoil the leeks.\n--\n" + strings.Repeat("2 eggs\n", lines)
		r := fromPlain(text)
		notes := 0
		for _, l := range r.Lines {
			if l.Role == Note {
				notes++
			}
		}
		assert.Equal(t, settled, notes >= lines, "%d lines: %s", lines, r)
	}
}
