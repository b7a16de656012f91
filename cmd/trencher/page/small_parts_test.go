package page

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/units"
)

// Ports are numbers up to 65535; one that is taken is told.
func TestWhichPortsAreOpened(t *testing.T) {
	for _, port := range []int{-1, 65536, 1 << 20} {
		_, err := Listen(port, false)
		assert.ErrorContains(t, err, "a port is a number from 1 to 65535, or 0 for any free one")
	}
	l, err := Listen(0, false)
	require.NoError(t, err)
	defer l.Close()
	require.Positive(t, l.Port())
	_, err = Listen(l.Port(), false)
	assert.ErrorContains(t, err, "cannot be opened; choose another, or 0 for any free one")
	require.NoError(t, l.Close())
	require.NoError(t, l.Close(), "closed twice is closed")
	_, err = l.Accept()
	assert.ErrorContains(t, err, "closed")
	again, err := Listen(l.Port(), false)
	require.NoError(t, err)
	require.NoError(t, again.Close())
}

// The address a phone most likely reaches comes first.
func TestLikelierAddressesFirst(t *testing.T) {
	four, six, out := netip.MustParseAddr("192.168.1.9"), netip.MustParseAddr("fd00::9"), netip.MustParseAddr("fd00::1")
	order := likelierFirst(out)
	assert.Negative(t, order(out, four))
	assert.Negative(t, order(four, six))
	assert.Negative(t, order(out, six))
	assert.Positive(t, order(six, four))
	assert.Zero(t, order(six, netip.MustParseAddr("fd00::8")))
	assert.Zero(t, order(four, netip.MustParseAddr("192.168.1.8")))
}

type passing bool

func (passing) Error() string     { return "for a moment" }
func (p passing) Temporary() bool { return bool(p) }

func TestWhichErrorsPass(t *testing.T) {
	assert.True(t, isPassing(passing(true)))
	assert.False(t, isPassing(passing(false)))
	assert.False(t, isPassing(errors.New("for good")))
}

// Who waits for the same form gives up with the request, and goes on once it is
// done.
func TestWaitingForAForm(t *testing.T) {
	var o once
	end, err := o.begin(context.Background(), "a")
	require.NoError(t, err)
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = o.begin(gone, "a")
	require.ErrorIs(t, err, context.Canceled)
	other, err := o.begin(context.Background(), "b")
	require.NoError(t, err, "another form waits for nobody")
	other()
	waited := make(chan error)
	go func() {
		free, err := o.begin(context.Background(), "a")
		if err == nil {
			free()
		}
		waited <- err
	}()
	time.Sleep(time.Millisecond)
	end()
	require.NoError(t, <-waited)
	assert.Empty(t, o.busy)
}

// Two sendings of a form are alike whatever tells them apart.
func TestContentsOfAForm(t *testing.T) {
	of := func(path string, form url.Values) string {
		r := httptest.NewRequest("POST", path, strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		require.NoError(t, r.ParseForm())
		return contentsOf(r)
	}
	plain := of("/weigh", url.Values{"planting": {"tub-3"}})
	assert.Equal(t, "/weigh?planting=tub-3", plain)
	assert.Equal(t, plain, of("/weigh", url.Values{"planting": {"tub-3"}, "once": {"x"}, "sure": {"y"}}))
	assert.NotEqual(t, plain, of("/take", url.Values{"planting": {"tub-3"}}))
	assert.NotEqual(t, plain, of("/weigh", url.Values{"planting": {"tub-3"}, "unit": {"kg"}}))
	told := &writtenOtherwise{"1 kg from tub-3."}
	assert.Equal(t, "this form was written down before, and not as it stands here: 1 kg from tub-3. Now nothing was written", told.Error())
	assert.Contains(t, told.Hint(), "Undo that entry first")
}

// What a panic while a plan is worked out comes to: the request's own.
func TestOutcomes(t *testing.T) {
	fine := outcomeOf(func() (int, any) { return 201, "plan" })
	assert.Equal(t, outcome{201, "plan", nil}, fine)
	assert.Equal(t, "plan", fine.orPanic())
	broken := outcomeOf(func() (int, any) { panic("a slip") })
	assert.PanicsWithValue(t, "a slip", func() { broken.orPanic() })
}

// How the page names its plot, and whose clock it asks by.
func TestHowThePlotIsNamed(t *testing.T) {
	for name, p := range map[string]*Page{
		"Your plot, in this phone": {pocket: true, where: ask.PlotRef{Demo: true}},
		"The demo plot":            {where: ask.PlotRef{Demo: true}},
		"The plot in this folder":  {},
		"The plot garden":          {where: ask.PlotRef{Dir: "/home/somebody/garden"}},
	} {
		assert.Equal(t, name, p.plotName())
	}
	assert.Equal(t, script+weighScript, Script())
	assert.Greater(t, len(Script()), len(script))
}

// An amount in a box stands beside its unit, and a weight in a scale's unit.
func TestAmountsAsTyped(t *testing.T) {
	m := units.MustParse
	assert.Equal(t, []string{"", "1.46", "310 g", "4"}, []string{asTyped(units.Quantity{}, "kg"), asTyped(m("1.46 kg"), "kg"), asTyped(m("310 g"), "kg"), asTyped(m("4"), "kg")})
	for amount, unit := range map[string]string{"1.46 kg": "kg", "310 g": "g", "2 lb": "lb", "3 oz": "oz"} {
		assert.Equal(t, unit, unitOf(m(amount)), amount)
	}
	for e, at := range map[harvest.Entry]string{
		&harvest.Lift{Header: harvest.Header{File: "a.yaml"}}:       "/weigh?correct=a.yaml",
		&harvest.Move{Header: harvest.Header{File: "a.yaml"}}:       "/take?correct=a.yaml",
		&harvest.Reweighed{Header: harvest.Header{File: "a.yaml"}}:  "/take?correct=a.yaml",
		&harvest.BatchEvent{Header: harvest.Header{File: "a.yaml"}}: "/fridge?correct=a.yaml",
		&harvest.Note{Header: harvest.Header{File: "a.yaml"}}:       "",
	} {
		assert.Equal(t, at, correctAt(e))
	}
	r := request("GET", "/weigh?correct=a.yaml&replaces=b.yaml", nil, nil)
	require.NoError(t, r.ParseForm())
	assert.Equal(t, "b.yaml", correctedFile(r))
	r = request("GET", "/weigh?correct=a.yaml", nil, nil)
	require.NoError(t, r.ParseForm())
	assert.Equal(t, "a.yaml", correctedFile(r))
}

// A lift that is corrected keeps what its form has no box for, and only that.
func TestRestOfACorrectedLift(t *testing.T) {
	q := harvest.LiftWords{Mothers: "typed", Soil: "typed"}
	keepRest(&q, &harvest.Move{})
	assert.Equal(t, harvest.LiftWords{Mothers: "typed", Soil: "typed"}, q)
	keepRest(&q, &harvest.Lift{Header: harvest.Header{File: "a.yaml"}, Left: "some", Where: "trug", Says: "dry"})
	assert.Equal(t, harvest.LiftWords{Replaces: "a.yaml", Left: "some", Lies: "trug", Says: "dry", Mothers: "typed", Soil: "typed"}, q)
	keepRest(&q, &harvest.Lift{Mothers: units.MustParse("250 g"), Soil: units.MustParse("1 kg")})
	assert.Equal(t, harvest.LiftWords{Mothers: "250 g", Soil: "1 kg"}, q)
}

// What a form insists on is written; what it did not insist on is asked again.
func TestInsisting(t *testing.T) {
	doubt := &harvest.Unsure{Doubts: []harvest.Doubt{harvest.TwoLots{Name: "a", Taken: "b", Other: "c"}}}
	try := func(sure string) (asked []bool, err error) {
		r := request("POST", "/weigh", url.Values{"sure": {sure}}, nil)
		require.NoError(t, r.ParseForm())
		_, err = insisting(r, func(sure bool) (string, error) {
			asked = append(asked, sure)
			if !sure {
				return "", doubt
			}
			return "written", nil
		})
		return asked, err
	}
	asked, err := try(doubt.Mark())
	assert.NoError(t, err)
	assert.Equal(t, []bool{false, true}, asked)
	for _, other := range []string{"", "yes"} {
		asked, err = try(other)
		assert.ErrorIs(t, err, doubt)
		assert.Equal(t, []bool{false}, asked)
	}
	list := mendings(doubt, nil)
	require.Len(t, list, 1)
	assert.Equal(t, doubt.Mark(), list[0].Insist)
}

// The sentences of the page begin with a capital, but for a file's name, and end.
func TestSentences(t *testing.T) {
	for text, says := range map[string]string{"": "", "no lot": "No lot.", "is it?": "Is it?", "stop!": "Stop!", "kitchen.yaml:1: wrong": "kitchen.yaml:1: wrong."} {
		assert.Equal(t, says, sentence(text))
	}
	for text, says := range map[string]string{"1.46": "1.46 kg", "1½": "1½ kg", "310 g": "310 g", "": "", "1,5": "1,5 kg"} {
		assert.Equal(t, says, withUnit(text, "kg"))
	}
	unit := unitField(sentAs(t, url.Values{"unit": {"stone"}}))
	assert.Equal(t, "kg", unit.Value)
	unit = unitField(sentAs(t, url.Values{"unit": {"lb"}}))
	assert.Equal(t, "lb", unit.Value)
	assert.Equal(t, "", notAmong(unit))
	assert.Equal(t, "Choose one of the list.", notAmong(field{Value: "x", Options: words("a", "b")}))
	f := field{Name: "weight", Label: "Weight", Wrong: "Much."}
	assert.Equal(t, []mending{{Field: "weight", Says: "Weight: Much."}}, wrongs(&f, &field{Name: "b"}))
	f.find(errors.New("other"))
	assert.Equal(t, "Much.", f.Wrong, "the first fault stays")
	f = field{Name: "weight"}
	f.find(nil)
	assert.Empty(t, f.Wrong)
	f.find(units.WrongField("weight", "x", "no weight", "1 kg"))
	assert.Equal(t, "Write 1 kg.", f.Hint)
	assert.Contains(t, f.Wrong, "no weight")
	beside([]mending{{Field: "a", Says: "x", Hint: "y"}, {Field: "weight", Says: "z"}}, &f)
	assert.Contains(t, f.Wrong, "no weight", "what was found before stays")
	g := field{Name: "a"}
	beside([]mending{{Field: "a", Says: "x", Hint: "y"}}, &g)
	assert.Equal(t, "x y", g.Wrong+" "+g.Hint)
}

func sentAs(t *testing.T, form url.Values) *http.Request {
	r := request("POST", "/weigh", form, nil)
	require.NoError(t, r.ParseForm())
	return r
}

// What is remembered of forms is bounded: the oldest is forgotten first, and found in
// the journal where it wrote there.
func TestRememberedFormsAreBounded(t *testing.T) {
	var o once
	for n := range maxRemembered + 3 {
		o.remember(fmt.Sprint(n), writing{says: fmt.Sprint("form ", n)})
	}
	assert.Len(t, o.wrote, maxRemembered)
	assert.Len(t, o.order, maxRemembered)
	_, there := o.remembered("2")
	assert.False(t, there)
	first, there := o.remembered("3")
	assert.True(t, there)
	assert.Equal(t, "form 3", first.says)
}

// What takes too long is refused as that, and asks for less; what is wrong in the plot
// is named.
func TestFaultsOfAScreen(t *testing.T) {
	g := newGardener(t)
	w := httptest.NewRecorder()
	g.page.fail(w, request("GET", "/", nil, nil), fmt.Errorf("planning: %w", context.DeadlineExceeded))
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Contains(t, w.Body.String(), "That took too long. Ask for less at once.")
	w = httptest.NewRecorder()
	g.page.fail(w, request("GET", "/", nil, nil), errors.New("kitchen.yaml:1:1: odd"))
	assert.Equal(t, http.StatusInternalServerError, w.Code)
	assert.Contains(t, w.Body.String(), "kitchen.yaml:1:1: odd.")
}

// A lift to be corrected fills each grade's boxes; a use of a lot that is gone keeps
// the lot's name to choose.
func TestFormsFilledFromEntries(t *testing.T) {
	var g grade
	g.fill(harvest.Grade{Weight: units.MustParse("820 g"), Sizes: units.Band{Low: 20, High: 45}, Count: 12, Condition: harvest.Scabby}, "kg")
	assert.Equal(t, "820 g 20 45 12 scabby", strings.Join([]string{g.Weight.Value, g.Low.Value, g.High.Value, g.Count.Value, g.Condition.Value}, " "))
	g = grade{}
	g.fill(harvest.Grade{Weight: units.MustParse("0.82 kg"), Condition: harvest.Sound}, "kg")
	assert.Equal(t, "0.82   ", strings.Join([]string{g.Weight.Value, g.Low.Value, g.High.Value, g.Count.Value}, " "))
	assert.Equal(t, "kg", unitOf(units.MustParse("4")))

	take := takeForm{Lot: field{Options: words("a", "b")}}
	take.fillFrom(&harvest.Move{To: harvest.KindGive, Lot: "gone", Weight: units.MustParse("50 g"), Whom: "neighbours"})
	assert.Equal(t, "gone give g 50 neighbours", strings.Join([]string{take.Lot.Value, take.To.Value, take.Unit.Value, take.Weight.Value, take.Detail.Value}, " "))
	assert.Equal(t, append(words("a", "b"), option{"gone", "gone"}), take.Lot.Options)
	take = takeForm{Lot: field{Options: words("a", "b")}}
	take.fillFrom(&harvest.Reweighed{Lot: "b", Weight: units.MustParse("0.7 kg"), Rotten: units.MustParse("0.1 kg"), Where: "shed"})
	assert.Equal(t, "b reweighed kg 0.7 0.1 shed", strings.Join([]string{take.Lot.Value, take.To.Value, take.Unit.Value, take.Weight.Value, take.Rotten.Value, take.Detail.Value}, " "))
	assert.Len(t, take.Lot.Options, 2)

	form := weighForm{Bowls: []bowl{{Full: field{Value: "1"}, Empty: field{Value: "0.3"}}, {Full: field{Value: "2"}}, {}, {Full: field{Value: "3"}}}}
	form.sameBowl()
	var tares []string
	for _, b := range form.Bowls {
		tares = append(tares, b.Empty.Value)
	}
	assert.Equal(t, []string{"0.3", "0.3", "", ""}, tares, "an empty row ends it")
}

// Warnings between devices stand apart from all others.
func TestWarningsBetweenDevicesStandApart(t *testing.T) {
	others, open := apart([]harvest.Warning{harvest.Untold{Planting: "a"}, harvest.Waiting{File: "b"}, harvest.Unfinished{File: "c"}})
	assert.Equal(t, []harvest.Warning{harvest.Untold{Planting: "a"}, harvest.Unfinished{File: "c"}}, others)
	assert.NotEmpty(t, open)
	others, open = apart([]harvest.Warning{harvest.Untold{Planting: "a"}})
	assert.Len(t, others, 1)
	assert.Empty(t, open)
}

func writeFile(dir, name, text string) error {
	path := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, []byte(text), 0o644)
}

func readFile(t *testing.T, dir, name string) string {
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	require.NoError(t, err)
	return string(data)
}
