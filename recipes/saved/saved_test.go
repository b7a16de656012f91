package saved

import (
	"encoding/json"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// `go test ./recipes/saved -update` writes the golden files anew.
var update = flag.Bool("update", false, "write the golden files anew")

// Each file of testdata (invented) beside its lines and their roles.
func TestRecipesAreTakenApart(t *testing.T) {
	files, err := filepath.Glob("testdata/*")
	require.NoError(t, err)
	require.Greater(t, len(files), 10)
	for _, file := range files {
		if strings.HasSuffix(file, ".lines") || filepath.Base(file) == "fuzz" {
			continue
		}
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			r, err := Read(file, data, Options{})
			require.NoError(t, err)
			got := r.String()
			if *update {
				require.NoError(t, os.WriteFile(file+".lines", []byte(got), 0o644))
			}
			want, err := os.ReadFile(file + ".lines")
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
		})
	}
}

// One recipe written in many ways comes to the same lines.
func TestShapesAgree(t *testing.T) {
	const plain = `{"@context":"https://schema.org","@type":"Recipe","name":"Chard pie","recipeYield":"4 servings",
"recipeIngredient":["400 g chard","2 eggs"],"recipeInstructions":[{"@type":"HowToStep","text":"Wilt the chard."},{"@type":"HowToStep","text":"Bake it."}]}`
	want, err := Read("plain.json", []byte(plain), Options{})
	require.NoError(t, err)
	require.Equal(t, []string{"400 g chard", "2 eggs"}, want.Of(Ingredient))
	for name, text := range map[string]string{
		"trailing commas":    strings.NewReplacer(`"2 eggs"]`, `"2 eggs", ]`, `it."}]}`, `it.",}, ],}`).Replace(plain),
		"raw line breaks":    strings.Replace(plain, "Wilt the chard", "Wilt\n\tthe chard", 1),
		"an escape of none":  strings.Replace(plain, "Bake it", `Bake\ it`, 1),
		"comments":           strings.Replace(plain, `"recipeYield"`, "// saved\n/* for */ \"recipeYield\"", 1),
		"entities":           strings.Replace(plain, "Bake it.", "&lt;p&gt;Bake&nbsp;it.&lt;/p&gt;", 1),
		"prefixed names":     strings.NewReplacer(`"recipe`, `"schema:recipe`, `"name"`, `"schema:name"`, `"text"`, `"schema:text"`, `"Recipe"`, `"schema:Recipe"`, `"HowToStep"`, `"schema:HowToStep"`).Replace(plain),
		"full names":         strings.NewReplacer(`"recipe`, `"http://schema.org/recipe`, `"name"`, `"http://schema.org/name"`, `"text"`, `"http://schema.org/text"`, `"Recipe"`, `"http://schema.org/Recipe"`).Replace(plain),
		"names of its own":   strings.NewReplacer(`"@context":"https://schema.org"`, `"@context":{"@vocab":"https://schema.org/","dish":"https://schema.org/name","goesIn":"schema:recipeIngredient"}`, `"name"`, `"dish"`, `"recipeIngredient"`, `"goesIn"`).Replace(plain),
		"in a graph":         `{"@context":"https://schema.org","@graph":[{"@type":"WebPage","name":"x"},` + plain + `]}`,
		"two types":          strings.Replace(plain, `"Recipe"`, `["Recipe","NewsArticle"]`, 1),
		"steps by reference": `{"@graph":[{"@type":"HowToStep","@id":"#1","text":"Wilt the chard."},{"@type":"HowToStep","@id":"#2","text":"Bake it."},` + strings.Replace(plain, plain[strings.Index(plain, `[{"@type":"HowTo`):], `[{"@id":"#1"},{"@id":"#2"}]}`, 1) + `]}`,
		"steps in one text":  strings.Replace(plain, plain[strings.Index(plain, `[{"@type":"HowTo`):], `"<ol><li>Wilt the chard.</li><li>Bake it.</li></ol>"}`, 1),
		"numbered steps":     strings.Replace(plain, plain[strings.Index(plain, `[{"@type":"HowTo`):], `"1. Wilt the chard.\n2. Bake it."}`, 1),
		"the old name":       strings.Replace(plain, "recipeIngredient", "ingredients", 1),
		"one text of lines":  strings.Replace(plain, `["400 g chard","2 eggs"]`, `"400 g chard<br>2 eggs"`, 1),
		"quantities":         strings.Replace(plain, `["400 g chard","2 eggs"]`, `[{"@type":"HowToSupply","name":"chard","requiredQuantity":{"@type":"QuantitativeValue","value":400,"unitText":"g"}},{"name":"eggs","amount":"2"}]`, 1),
		"a page":             `<!doctype html><html><head><script type="application/ld+json">` + plain + `</script></head><body>Chard!</body></html>`,
		"CDATA":              "<html><script type='application/ld+json'>//<![CDATA[\n" + plain + "\n//]]></script></html>",
		"an HTML comment":    "<html><script type=\"application/ld+json; charset=utf-8\"><!--\n" + plain + "\n--></script></html>",
		"a broken block too": `<html><script type="application/ld+json">{"@type":</script><script type="application/ld+json">` + plain + `</script></html>`,
		"both ways":          `<html><script type="application/ld+json">` + plain + `</script>` + chardMicrodata + `</html>`,
		"microdata":          "<html>" + chardMicrodata + "</html>",
		"microdata by parts": `<html><div itemscope itemtype="http://schema.org/Recipe" itemref="b a"></div><div id="a"><meta itemprop="recipeYield" content="4 servings"><p itemprop="ingredients">400 g chard<p itemprop="ingredients">2 eggs<div itemprop="recipeInstructions"><p>Wilt the chard.<p>Bake it.</div></div><h1 id="b" itemprop="name">Chard pie</h1></html>`,
		"RDFa Lite":          `<html vocab="https://schema.org/"><div typeof="Recipe"><h1 property="name">Chard pie</h1><span property="recipeYield" content="4 servings">four</span><ul><li property="recipeIngredient">400&nbsp;g chard<li property="recipeIngredient">2 <b>eggs</b></ul><div property="recipeInstructions" typeof="HowToStep"><span property="text">Wilt the chard.</span></div><div property="recipeInstructions" typeof="HowToStep"><span property="text">Bake it.</span></div></div></html>`,
		"RDFa prefixed":      `<html prefix="schema: https://schema.org/"><div typeof="schema:Recipe"><h1 property="schema:name">Chard pie</h1><meta property="schema:recipeYield" content="4 servings"><i property="schema:recipeIngredient">400 g chard</i><i property="schema:recipeIngredient">2 eggs</i><ol property="schema:recipeInstructions"><li>Wilt the chard.</li><li>Bake it.</li></ol></div></html>`,
		"plain text":         "Chard pie\n4 servings\n\nIngredients\n\n- 400 g chard\n- 2 eggs\n\nMethod\n\n1. Wilt the chard.\n2. Bake it.\n",
		"an e-mail":          "From: a@example.org\nSubject: Fwd: =?utf-8?q?Chard_pie?=\nContent-Type: text/plain; charset=utf-8\nContent-Transfer-Encoding: quoted-printable\n\n4 servings\n\n400=20g chard\n2 eggs\n\nWilt the=\n chard.\nBake it.\n",
	} {
		t.Run(name, func(t *testing.T) {
			got, err := Read("a", []byte(text), Options{})
			require.NoError(t, err)
			assert.Equal(t, "Chard pie", got.Name)
			for _, role := range []Role{Yield, Ingredient, Step} {
				assert.Equal(t, want.Of(role), got.Of(role))
			}
		})
	}
}

const chardMicrodata = `<div itemscope itemtype="https://schema.org/Recipe"><h1 itemprop="name">Chard pie</h1><div itemprop="author" itemscope itemtype="https://schema.org/Person"><i itemprop="name">Somebody</i></div>
For <span itemprop="recipeYield">4 servings</span><ul><li itemprop="recipeIngredient">400 g
 chard</li><li itemprop="recipeIngredient">2 eggs</li></ul>
<ol><li itemprop="recipeInstructions" itemscope itemtype="https://schema.org/HowToStep"><span itemprop="text">Wilt the chard.</span></li>
<li itemprop="recipeInstructions" itemscope itemtype="https://schema.org/HowToStep"><span itemprop="text">Bake it.</span></li></ol></div>`

func TestSectionsKeepTheirNames(t *testing.T) {
	r, err := Read("a.json", []byte(`{"@type":"Recipe","name":"Pie","recipeIngredient":["1 egg"],"recipeInstructions":[
{"@type":"HowToSection","name":"The crust","itemListElement":[{"@type":"HowToStep","name":"Rub","text":"Rub in the fat."},{"@type":"HowToStep","itemListElement":[{"@type":"HowToDirection","text":"Roll."},{"@type":"HowToTip","text":"Keep cold."}]}]},
{"@type":"HowToSection","name":"The filling","itemListElement":"Fill."}]}`), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"The crust", "The filling"}, r.Of(Heading))
	assert.Equal(t, []string{"Rub in the fat.", "Roll.", "Keep cold.", "Fill."}, r.Of(Step))
}

func TestOneOfSeveralIsChosen(t *testing.T) {
	two := `[{"@type":"Recipe","name":"Soup","recipeIngredient":["1 leek"]},{"@type":"Recipe","name":"Mash","recipeIngredient":["1 swede"]},{"@type":"Recipe","name":"A link to more"}]`
	_, err := Read("a.json", []byte(two), Options{})
	var field *units.FieldError
	require.True(t, errors.As(err, &field), "%v", err)
	assert.Equal(t, "recipe", field.Field)
	assert.Equal(t, "2 recipes in one file", field.Problem)
	assert.Equal(t, "write the number of one: 1 Soup; 2 Mash", field.Hint())
	for _, choice := range []string{"2", "mash"} {
		r, err := Read("a.json", []byte(two), Options{Choice: choice})
		require.NoError(t, err)
		assert.Equal(t, "Mash", r.Name)
	}
	_, err = Read("a.json", []byte(two), Options{Choice: "3"})
	assert.ErrorContains(t, err, `recipe "3": 2 recipes in one file, and none of them is that`)
}

func TestWhatIsNoRecipeIsRefused(t *testing.T) {
	for name, row := range map[string]struct{ data, says string }{
		"empty":               {"", "f:1:1: nothing is in this file"},
		"blank":               {" \n", "f:1:1: nothing is in this file"},
		"no JSON":             {`{"@type":`, "f:1:9: this is not JSON: unexpected end of JSON input"},
		"another thing":       {`{"@type":"Person"}`, "f:1:1: no recipe in this file"},
		"a page without one":  {"<html><body>Mash</body></html>", "f:1:1: no recipe is marked in this page"},
		"a page of no JSON":   {"<html>\n<script type='application/ld+json'>{</script></html>", "f:2:36: this is not JSON"},
		"a library of tags":   {strings.Repeat("<p>", mostTags+1), "200001 tags in one page"},
		"a library of lines":  {"Ingredients\n" + strings.Repeat("1 egg\n", mostLines+1), "1002 lines in one recipe"},
		"more than a library": {strings.Repeat("x", MostBytes+1), "f: the file is larger than 4 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read("f", []byte(row.data), Options{})
			require.ErrorContains(t, err, row.says)
		})
	}
}

func TestPropertiesComeExactly(t *testing.T) {
	value := "a  <b> &amp; “c”\nd"
	data, err := json.Marshal(map[string]any{"@type": "Recipe", "name": "x", "additionalProperty": []any{map[string]any{"@type": "PropertyValue", "name": "served", "value": value}, map[string]any{"name": "of no value"}}})
	require.NoError(t, err)
	r, err := Read("a.json", data, Options{})
	require.NoError(t, err)
	assert.Equal(t, []Property{{"served", value}}, r.Properties)
}

// No file stops the reader, and what it takes as plain text it keeps: every
// word of the file stands in a line.
func FuzzRead(f *testing.F) {
	files, _ := filepath.Glob("testdata/*")
	for _, file := range files {
		if data, err := os.ReadFile(file); err == nil {
			f.Add(data)
		}
	}
	f.Add([]byte(`<div itemscope itemtype=Recipe itemref="a a"><p id=a itemprop=name>`))
	f.Add([]byte("{\"@type\":\"Recipe\",\"@graph\":[{\"@id\":\"x\"}],}"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := Read("f", data, Options{})
		if err != nil {
			return
		}
		body := strings.TrimSpace(string(data))
		if strings.ContainsAny(body[:1], "<{[") || isMail(body) {
			return
		}
		kept := r.Name
		for _, line := range r.Lines {
			kept += " " + line.Text
		}
		for _, word := range strings.FieldsFunc(body, func(c rune) bool { return c < 'a' || c > 'z' }) {
			if len(word) > 6 {
				require.Contains(t, kept, word)
			}
		}
	})
}
