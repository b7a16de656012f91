package page

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/units"
)

// What is said of each form once it is written, in full.
func TestWhatIsSaidOfAWrittenForm(t *testing.T) {
	done := regexp.MustCompile(`(?s)<p class="done" role="status">(.*?)</p>`)
	for name, want := range map[string]string{
		"recipe": "Beetroot with butter is one of your dishes now.", "settle": "Settled.", "weigh": "1.82 kg from tub-3 written down.",
		"take": "100 g of tub-3/20-45-sound taken out; 720 g left.", "weigh again": "700 g of tub-3/20-45-sound left; 120 g dried away.",
		"fridge": "Written down: Cold potato salad with radish and onions. Fine now; into the fridge by 18:40, or eaten.", "undo": "Taken back: lift of tub-3, 1.82 kg, Sat 12 Jul 16:40.",
	} {
		sent := sentForms()[name]
		g := newGardener(t)
		g.page.where.Device = func() string { return "aaaaaa" }
		form := url.Values{"once": {"o"}}
		if sent.prepared != nil {
			sent.prepared(g, form)
		}
		for box, value := range sent.form {
			form[box] = value
		}
		w := g.post(sent.path, form)
		require.Equal(t, http.StatusSeeOther, w.Code, name)
		body := g.get(w.Header().Get("Location")).Body.String()
		found := done.FindStringSubmatch(body)
		require.NotNil(t, found, "%s: nothing is said", name)
		assert.Equal(t, want, strings.TrimSpace(found[1]), name)
	}
}

// A bowl's row in one line, and what is told beside each of its boxes.
func TestBowlsInOneLine(t *testing.T) {
	for typed, want := range map[[2]string]string{
		{"1.46", "0.31"}: "1.46 kg - 0.31 kg||", {"1.46", ""}: "1.46 kg||", {"", ""}: "||", {"1460 g", "310 g"}: "1460 g - 310 g||",
		{"", "0.31"}: "|The full bowl's weight is missing.|", {"much", "0.31"}: "much - 0.31 kg|!|", {"1.46", "some"}: "1.46 kg - some||!",
		{"much", "some"}: "much - some|!|!", {"0.31", "1.46"}: "0.31 kg - 1.46 kg||!", {"much", ""}: "much|!|", {"0", ""}: "0 kg|!|",
	} {
		b := bowl{Full: field{Value: typed[0]}, Empty: field{Value: typed[1]}}
		text := b.text("kg")
		said := func(wrong string) string {
			if wrong != "" && wrong != "The full bowl's weight is missing." {
				return "!"
			}
			return wrong
		}
		assert.Equal(t, want, text+"|"+said(b.Full.Wrong)+"|"+said(b.Empty.Wrong), typed)
	}
}

// A grade's row likewise.
func TestGradesInOneLine(t *testing.T) {
	for typed, want := range map[[4]string]string{
		{"0.82", "20", "45", "12"}: "0.82 kg 20-45 mm 12 pieces sound|||", {"0.82", "", "", ""}: "0.82 kg sound|||", {"", "", "", ""}: "|||",
		{"", "20", "", ""}: "|Its weight is missing.||", {"", "", "45", ""}: "|Its weight is missing.||", {"", "", "", "3"}: "|Its weight is missing.||",
		{"much", "", "", ""}: "much sound|!||", {"0.82", "45", "20", ""}: "0.82 kg 45-20 mm sound||!|", {"0.82", "20", "", ""}: "0.82 kg 20- mm sound||!|",
		{"0.82", "", "45", ""}: "0.82 kg -45 mm sound||!|", {"0.82", "", "", "few"}: "0.82 kg few pieces sound|||Write a whole number.", {"0.82", "", "", "3x"}: "0.82 kg 3x pieces sound|||Write a whole number.",
	} {
		g := newGrade(1)
		g.Weight.Value, g.Low.Value, g.High.Value, g.Count.Value = typed[0], typed[1], typed[2], typed[3]
		text := g.text("kg")
		said := func(wrong string) string {
			if wrong != "" && !strings.HasPrefix(wrong, "Its weight") && !strings.HasPrefix(wrong, "Write a whole") {
				return "!"
			}
			return wrong
		}
		assert.Equal(t, want, strings.Join([]string{text, said(g.Weight.Wrong), said(g.High.Wrong), said(g.Count.Wrong)}, "|"), typed)
		assert.Empty(t, g.Low.Wrong)
	}
}

// The net weight is told while one types: of the bowls alone, and only where they
// are right and weigh something.
func TestNetSoFar(t *testing.T) {
	g := newGardener(t)
	for typed, net := range map[string]string{
		"bowl-1-full=1.46&bowl-1-empty=0.31": "1.15 kg net so far", "bowl-1-full=1.46": "1.46 kg net so far", "bowl-1-full=1&grade-1-weight=9": "1.00 kg net so far",
		"bowl-1-full=much": "", "bowl-1-full=": "", "bowl-1-full=1&bowl-2-full=much": "", "bowl-1-full=1&bowl-1-empty=1": "", "bowl-1-full=1&grade-1-weight=much": "",
	} {
		form, err := url.ParseQuery("net=1&unit=kg&planting=tub-3&once=n&" + typed)
		require.NoError(t, err)
		body := g.post("/weigh", form).Body.String()
		found := regexp.MustCompile(`data-net>([^<]*)</p>`).FindStringSubmatch(body)
		require.NotNil(t, found)
		assert.Equal(t, net, found[1], typed)
	}
	assert.Zero(t, g.entries())
}

// How a lot stands in the list, by what it is like.
func TestHowLotsStandInTheList(t *testing.T) {
	until := time.Date(2031, 7, 30, 0, 0, 0, 0, time.UTC)
	lot := func(change func(*harvest.Lot)) *harvest.Lot {
		l := &harvest.Lot{Name: "tub-3/20-45", Planting: &harvest.Planting{ID: "tub-3", Crop: "potato"}, Sizes: units.Band{Low: 20, High: 45}, Condition: harvest.Sound,
			Weight: decimal.NewFromInt(820), KeepsUntil: until, Kept: &harvest.Lying{Where: "shed"}}
		change(l)
		return l
	}
	for name, row := range map[string]struct {
		change func(*harvest.Lot)
		want   string
	}{
		"sound":             {func(l *harvest.Lot) {}, "potato 20-45 mm sound first=false never=false past=false keeps=30 July"},
		"first":             {func(l *harvest.Lot) { l.First = true }, "potato 20-45 mm sound first=true never=false past=false keeps="},
		"past":              {func(l *harvest.Lot) { l.First, l.Past = true, true }, "potato 20-45 mm sound first=false never=false past=true keeps="},
		"green":             {func(l *harvest.Lot) { l.Condition = harvest.Green }, "potato 20-45 mm green first=false never=true past=false keeps="},
		"green and first":   {func(l *harvest.Lot) { l.Condition, l.First = harvest.Green, true }, "potato 20-45 mm green first=false never=true past=false keeps="},
		"no row tells":      {func(l *harvest.Lot) { l.KeepsUntil = time.Time{} }, "potato 20-45 mm sound first=false never=false past=false keeps="},
		"of no size":        {func(l *harvest.Lot) { l.Sizes = units.Band{} }, "potato sound first=false never=false past=false keeps=30 July"},
		"of a named potato": {func(l *harvest.Lot) { l.Variety = "Weir Gold" }, "potato Weir Gold 20-45 mm sound first=false never=false past=false keeps=30 July"},
	} {
		v := viewStockLot(lot(row.change))
		assert.Equal(t, row.want, fmt.Sprintf("%s first=%t never=%t past=%t keeps=%s", v.What, v.First, v.Never, v.Past, v.Keeps), name)
		assert.Equal(t, "tub-3/20-45 820 g shed", v.Name+" "+v.Weight+" "+v.Where)
	}
	grams := decimal.NewFromInt
	assert.Equal(t, "Nothing to eat on hand.", stockAnswer(grams(0), grams(0)))
	assert.Equal(t, "500 g on hand.", stockAnswer(grams(500), grams(0)))
	assert.Equal(t, "500 g on hand, 200 g of it to use today.", stockAnswer(grams(500), grams(200)))
}

// All at once is offered where there is more than one thing to settle.
func TestWhenAllIsSettledAtOnce(t *testing.T) {
	one := harvest.Contradiction{Counts: &harvest.Note{Dish: "Mash", Says: "x"}, Instead: []harvest.Entry{&harvest.Note{Dish: "Mash", Says: "y"}}, Voided: true}
	for name, row := range map[string]struct {
		open harvest.LeftOpen
		all  bool
	}{
		"nothing": {harvest.LeftOpen{}, false}, "one": {harvest.LeftOpen{Contradictions: []harvest.Contradiction{one}}, false},
		"two":      {harvest.LeftOpen{Contradictions: []harvest.Contradiction{one, one}}, true},
		"an other": {harvest.LeftOpen{Others: []harvest.Warning{harvest.Waiting{File: "b", For: "c"}}}, true},
	} {
		var view settleScreen
		view.fill(row.open)
		assert.Equal(t, row.all, view.All, name)
		require.Len(t, view.Contradictions, len(row.open.Contradictions))
		for _, c := range view.Contradictions {
			require.Len(t, c.Versions, 2)
			assert.True(t, c.Voided && c.Versions[0].Counts && !c.Versions[1].Counts)
		}
		assert.Len(t, view.Others, len(row.open.Others))
	}
}

// Fifteen dishes stand open, sixteen folded; three entries on top of a screen; a lift
// that was not among the last twenty is not remembered.
func TestHowMuchStandsOpen(t *testing.T) {
	g := newSignedGardener(t)
	dishes := func(count int) string {
		for n := range count - 2 {
			require.NoError(t, writeFile(g.dir, fmt.Sprintf("dishes/more-%02d.yaml", n), fmt.Sprintf("name: More %02d\nportions: 2\nserved: hot\ncrops: [{crop: potato, amount: 400 g, cut: halves}]\n", n)))
		}
		return g.get("/share").Body.String()
	}
	assert.NotContains(t, dishes(15), "<summary>Dishes: ")
	assert.Contains(t, dishes(16), "<summary>Dishes: 16 of 16</summary>")
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	for n := range 20 {
		if n < 4 {
			assert.Equal(t, min(n+1, 3), strings.Count(g.get("/").Body.String(), ">Undo</button>"))
		}
		if n%19 == 0 {
			assert.Contains(t, g.get("/weigh").Body.String(), `<option value="tub-3" selected>`, n)
		}
		form := url.Values{"once": {fmt.Sprint("take", n)}, "lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"1"}, "unit": {"g"}}
		require.Equal(t, http.StatusSeeOther, g.post("/take", form).Code)
	}
	assert.NotContains(t, g.get("/weigh").Body.String(), `<option value="tub-3" selected>`)
}

// What went into the ground at a phone does not come home, so it is not taken there;
// what has nothing to take home is not offered it; a damaged entry in a parcel is
// told beside what came.
func TestFormsInAPhone(t *testing.T) {
	phone := newGardener(t)
	phone.page.where.Device, phone.page.pocket = func() string { return "phonea" }, true
	before := readFile(t, phone.dir, "plantings.yaml")
	w := phone.post("/plant", url.Values{"once": {"p"}, "crop": {"carrot"}, "in": {"bed"}, "size": {"2"}, "called": {"bed-7"}, "how": {"sown"}, "planted": {"2031-04-12"}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Equal(t, before, readFile(t, phone.dir, "plantings.yaml"))
	assert.Contains(t, phone.get("/carry").Body.String(), "/carry/home", "its dishes")
	serve(phone.handler, request("POST", "/carry/home", url.Values{"once": {"h"}}, nil))
	assert.NotContains(t, phone.get("/carry").Body.String(), "/carry/home")
	assert.NotContains(t, phone.get("/carry").Body.String(), "away-", "there the network need not be there")
	home := newGardener(t)
	assert.NotContains(t, home.get("/carry").Body.String(), "/carry/home")
	assert.Contains(t, home.get("/carry").Body.String(), "away-")
	require.NoError(t, writeFile(phone.dir, "journal/2031/0712-1000-note-mash.yaml", "kind: note\nat: 2031-07-12T10:00:00Z\ndish: Mash\nsays: x\n"))
	require.NoError(t, writeFile(phone.dir, "journal/2031/0712-1100-note-mash.yaml", "kind: note\n"))
	taken := serve(phone.handler, request("GET", "/carry/plot", nil, nil))
	require.Equal(t, http.StatusOK, taken.Code)
	body := sendForm(home, parcelForm(t, "x.zip", taken.Body.Bytes())).Body.String()
	assert.Contains(t, body, "1 entry")
	assert.Contains(t, body, "0712-1100-note-mash.yaml")
	assert.Equal(t, 1, home.entries())
	body = sendForm(home, parcelForm(t, "x.zip", []byte("no parcel"))).Body.String()
	assert.NotContains(t, body, `<div class="done"`, "nothing was brought")
}

// Where an empty plot begins: with the first planting, then the first lift, then
// the first dish.
func TestWhereAPlotBegins(t *testing.T) {
	g := newGardener(t)
	empty := emptyPlot(t)
	assert.Equal(t, leads{Plant: true, Dish: true}, empty.page.leads(0))
	assert.Equal(t, leads{Lift: true}, g.page.leads(0))
	assert.Equal(t, leads{}, g.page.leads(1))
	require.NoError(t, writeFile(empty.dir, "plantings.yaml", plotFiles["plantings.yaml"]))
	assert.Equal(t, leads{Lift: true, Dish: true}, empty.page.leads(0))
	require.NoError(t, writeFile(empty.dir, "dishes/a.yaml", "name: [\n"))
	assert.Equal(t, leads{Lift: true}, empty.page.leads(0))
	require.NoError(t, writeFile(empty.dir, "plantings.yaml", "- id: [\n"))
	assert.Equal(t, leads{}, empty.page.leads(0))
}

// A question is asked once it has its boxes, whichever of them came first.
func TestQuestionsWithoutAllBoxes(t *testing.T) {
	g := newGardener(t)
	for target, says := range map[string]string{
		"/boil?size=10": "min", "/boil?crop=carrot": "The size is missing.", "/steam?load=1+kg": "Give the size too", "/steam?size=25": "from full steam", "/keep?food=": "Choose what it is.", "/dish?name=": "Choose one of the list.",
	} {
		assert.Contains(t, g.get(target).Body.String(), says, target)
	}
	assert.Equal(t, http.StatusOK, g.get("/boil?way=blanch").Code, "nothing is asked yet")
	w := stocked(t).post("/take", url.Values{"once": {"t"}, "lot": {"x"}, "to": {"use"}, "weight": {"much"}, "unit": {"kg"}})
	assert.Equal(t, http.StatusUnprocessableEntity, w.Code)
	assert.Regexp(t, `id="weight"[^>]*aria-invalid`, w.Body.String())
	for name, style := range map[string]asset{"style": g.page.style, "cook": g.page.script, "weigh": g.page.weigh, "away": g.page.away} {
		assert.Regexp(t, `^/`+name+`-[0-9a-f]{16}\.(css|js)$`, style.Address)
	}
	q := (&shareForm{Dishes: []dishChoice{{1, "a", true}, {2, "b", false}}, Chosen: 1}).question(ask.PlotRef{})
	assert.Equal(t, []string{"a"}, q.Only)
	q = (&shareForm{Dishes: []dishChoice{{1, "a", true}, {2, "b", true}}, Chosen: 2}).question(ask.PlotRef{})
	assert.Nil(t, q.Only, "all of them: none in particular")
	several := weighForm{Bowls: []bowl{{Full: field{Name: "bowl-1-full"}, Empty: field{Value: "0.3"}}, {}}}
	several.question(ask.PlotRef{})
	assert.Equal(t, "The full bowl's weight is missing.", several.Bowls[0].Full.Wrong, "what was found before stays")
	several = weighForm{Bowls: []bowl{{}, {Empty: field{Value: "0.3"}}}}
	several.question(ask.PlotRef{})
	assert.Equal(t, "No bowl has been weighed yet.", several.Bowls[0].Full.Wrong)
	none := &shareForm{Dishes: []dishChoice{{1, "a", false}}}
	none.question(ask.PlotRef{})
	assert.Equal(t, []mending{{Field: "dishes", Says: "Choose a dish at least."}}, none.Mend)
}
