package main

import (
	"bytes"
	"context"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/demo"
)

// garden is a copy of the demo plot and a clock in its season.
type garden struct {
	t   *testing.T
	dir string
	now time.Time
}

func newGarden(t *testing.T) *garden {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "plot")
	require.NoError(t, os.CopyFS(dir, demo.Plot()))
	return &garden{t: t, dir: dir, now: demo.Day().Add(20 * time.Hour)}
}

// run runs one command on the garden and returns both streams and the status.
func (g *garden) run(args ...string) (out, errs string, status int) {
	g.t.Helper()
	var stdout, stderr bytes.Buffer
	env := &environment{in: strings.NewReader(""), out: &stdout, err: &stderr, now: func() time.Time { return g.now }, program: noProgram}
	status = run(context.Background(), env, append(args, "--plot", g.dir))
	return stdout.String(), stderr.String(), status
}

// ok runs a command that has to work.
func (g *garden) ok(args ...string) string {
	g.t.Helper()
	out, errs, status := g.run(args...)
	require.Equal(g.t, statusDone, status, "%v: %s", args, errs)
	return out
}

// wrote runs a command that has to work and returns the name, without its
// ending, of the entry it wrote.
func (g *garden) wrote(args ...string) string {
	g.t.Helper()
	return g.nameIn(g.ok(args...))
}

// nameIn finds the written entry's name in an answer.
func (g *garden) nameIn(answer string) string {
	g.t.Helper()
	parts := writtenTo.FindStringSubmatch(answer)
	require.NotNil(g.t, parts, "no entry written: %s", answer)
	return parts[1]
}

var writtenTo = regexp.MustCompile(`written to journal/\d{4}/(\S+)\.yaml`)

// json runs a command that has to work and reads its answer.
func (g *garden) json(into any, args ...string) {
	g.t.Helper()
	require.NoError(g.t, json.Unmarshal([]byte(g.ok(append(args, "--json")...)), into), args)
}

// A day at the plot, as scripts see it: lift, use, give, compost, store, and
// the account of it, exact to the gram.
func TestADaysAccount(t *testing.T) {
	g := newGarden(t)
	var lift struct {
		Kind, Planting, At, File string
		NetG                     string `json:"net_g"`
		Weighings                []struct{ Gross, Tare string }
		Grades                   []struct{ Weight, Condition string }
		Lots                     []struct{ ID string }
	}
	g.json(&lift, "lift", "--planting", "bed-2", "--weighing", "1.46 kg - 0.31 kg", "--weighing", "980 g - 310 g",
		"--grade", "820 g 20-45 mm scabby", "--grade", "90 g rotten", "--mothers", "120 g", "--at", "2031-07-19T18:05")
	assert.Equal(t, "1820", lift.NetG)
	assert.Regexp(t, `^journal/2031/0719-1805-lift-bed-2-[a-z2-7]{4}\.yaml$`, lift.File)
	assert.Equal(t, "2031-07-19T18:05:00+01:00", lift.At)
	assert.Equal(t, "310 g", lift.Weighings[1].Tare)
	require.Len(t, lift.Lots, 3)
	assert.FileExists(t, filepath.Join(g.dir, lift.File))

	g.ok("use", lift.Lots[0].ID, "300.5 g", "--dish", "Crushed potatoes with chives")
	g.ok("give", "bed-2/20-45-scabby", "1 lb", "--to", "neighbours")
	g.ok("compost", "bed-2/ungraded-rotten")
	g.ok("store", "bed-2/ungraded-sound", "500 g", "--where", "shed")
	g.ok("use", "tub-1/20-45-sound") // all of it

	var rows []struct {
		Planting string
		Net      decimal.Decimal `json:"net_g"`
		ToEat    decimal.Decimal `json:"to_eat_g"`
		Went     map[string]decimal.Decimal
		Apart    map[string]decimal.Decimal
	}
	g.json(&rows, "tally", "--season", "2031")
	require.Len(t, rows, 3)
	for _, row := range rows {
		sum := decimal.Zero
		for _, g := range row.Went {
			sum = sum.Add(g)
		}
		assert.True(t, row.Net.Equal(sum), "%s: %s", row.Planting, row.Went)
	}
	assert.Equal(t, "bed-2", rows[1].Planting)
	assert.Equal(t, "3150", rows[1].Net.String(), "1330 g of the demo's lift and 1820 g of this one")
	assert.Equal(t, "3060", rows[1].ToEat.String())
	assert.Equal(t, "300.5", rows[1].Went["kitchen_g"].String())
	assert.Equal(t, "453.59237", rows[1].Went["given_g"].String())
	assert.Equal(t, "90", rows[1].Went["compost_g"].String())
	assert.Equal(t, "500", rows[1].Went["stored_g"].String())
	assert.Equal(t, "120", rows[1].Apart["mothers_g"].String())
	assert.Equal(t, "890", rows[0].Went["kitchen_g"].String())

	var lots []struct {
		ID         string
		SizesMM    []int  `json:"sizes_mm"`
		OnHandG    string `json:"on_hand_g"`
		SupplyG    string `json:"supply_g"`
		KeepsUntil string `json:"keeps_until"`
		Where      string
		First      bool
	}
	g.json(&lots, "stock", "--on", "2031-07-19")
	found := map[string]string{}
	for _, l := range lots {
		found[l.ID] = l.OnHandG + " " + l.SupplyG + " " + l.KeepsUntil + " " + l.Where
	}
	assert.Equal(t, "65.90763 65.90763 2031-07-22 ", found[lift.Lots[0].ID])
	assert.Equal(t, "910 910 2031-07-22 shed", found[lift.Lots[2].ID])
	assert.NotContains(t, found, "tub-1/2031-0719-1005/20-45-sound")
	assert.True(t, lots[0].First)

	var ready []struct {
		Planting, State, From, To string
		Weeks                     float64
		Check                     []string
	}
	g.json(&ready, "ready", "--on", "2031-06-21", "--felt", "bed-2=30 mm")
	require.Len(t, ready, 3)
	assert.Equal(t, "bed-2", ready[0].Planting)
	assert.Equal(t, "bed-3", ready[1].Planting)
	assert.Equal(t, "due", ready[0].State)
	assert.Equal(t, 11.0, ready[0].Weeks)
	assert.Equal(t, "2031-06-21", ready[0].From)
	assert.Equal(t, "early", ready[2].State)
}

// What a hurried person types that cannot be: one clear error each, nothing on
// standard output, nothing written.
func TestAccountRefusals(t *testing.T) {
	g := newGarden(t)
	before := snapshotOf(t, g.dir)
	for _, row := range []struct {
		args   []string
		status int
		says   string
	}{
		{[]string{"lift"}, statusUsage, "--planting is missing"},
		{[]string{"lift", "--planting", "tub-1"}, statusUsage, "--weighing is missing"},
		{[]string{"lift", "--planting", "tub-9", "--weighing", "1 kg"}, statusInput, `--planting "tub-9": not in plantings.yaml`},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg - 2 kg"}, statusInput, "the empty bowl, 2 kg, weighs more than the full one, 1 kg"},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--grade", "3 kg"}, statusInput, "--grade: the grades add up to 3000 g, 2000 g more than the net weight of 1000 g"},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--at", "2032-01-01"}, statusInput, "still to come"},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--at", "2031-01-01"}, statusInput, "before tub-1 was planted"},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--at", "noonish"}, statusInput, `--at "noonish": not a time`},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--left", "half"}, statusInput, `--left "half"`},
		{[]string{"lift", "--planting", "tub-1", "--weighing", "1 kg", "--replaces", "nothing"}, statusInput, `--replaces "nothing"`},
		{[]string{"use"}, statusUsage, "use LOT [WEIGHT]"},
		{[]string{"use", "bed-9"}, statusInput, "nothing of that name is on hand"},
		{[]string{"use", "tub-1"}, statusInput, "more than one lot goes by that name"},
		{[]string{"use", "tub-1/ungraded-green"}, statusInput, "never goes to the kitchen"},
		{[]string{"use", "tub-1/20-45-sound", "2 kg"}, statusInput, "more than the 890 g there is"},
		{[]string{"use", "tub-1/20-45-sound", "0 g"}, statusInput, "no weight to take"},
		{[]string{"use", "tub-1/20-45-sound", "--at", "2031-07-18"}, statusInput, "It was lifted at 2031-07-19 10:05, after that"},
		{[]string{"use", "tub-1/20-45-sound", "--at", "2031-07-25"}, statusInput, "still to come"},
		{[]string{"note", "Nothing", "x"}, statusInput, "no dish of that name"},
		{[]string{"note", "Nothing"}, statusUsage, "note DISH"},
		{[]string{"stock", "--on", "19/7/2031"}, statusInput, `--on "19/7/2031": not a day`},
		{[]string{"stock", "--on", "2031-07-19", "--season", "2031"}, statusUsage, "--on asks for a day"},
		{[]string{"tally", "--all", "--season", "2031"}, statusUsage, "--all asks for every season"},
		{[]string{"ready", "--felt", "tub-1"}, statusInput, "no planting and size"},
		{[]string{"ready", "--felt", "bed-2=3 kg"}, statusInput, "no size"},
		{[]string{"ready", "--felt", "bed-9=30 mm"}, statusInput, "no planting of that name stands"},
		{[]string{"journal", "void", "nothing"}, statusInput, "no entry of that name"},
		{[]string{"journal", "import", "no-such.csv"}, statusInput, "no-such.csv"},
	} {
		out, errs, status := g.run(row.args...)
		assert.Equal(t, row.status, status, "%v", row.args)
		assert.Contains(t, errs, row.says, "%v", row.args)
		assert.Empty(t, out, "%v", row.args)
	}
	assert.Equal(t, before, snapshotOf(t, g.dir), "nothing was written")
}

func snapshotOf(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		found[path] = string(data)
		return err
	}))
	return found
}

// A journal ahead of the clock is an error that names --on, unless a day or a
// season is asked for.
func TestJournalAheadOfTheClock(t *testing.T) {
	g := newGarden(t)
	g.now = time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)
	for _, command := range []string{"stock", "tally", "ready"} {
		_, errs, status := g.run(command)
		assert.Equal(t, statusInput, status, command)
		assert.Contains(t, errs, "--on 2031-07-19", command)
		g.ok(command, "--on", "2031-07-19")
	}
	g.ok("tally", "--season", "2031")
	g.ok("stock", "--season", "2031")
	_, errs, status := g.run("lift", "--planting", "bed-3", "--weighing", "1 kg - 0 g", "--at", "2031-08-01T10:00")
	assert.Equal(t, statusDone, status, errs)
	assert.Contains(t, errs, "warning: this machine's clock says 2026-05-01, before bed-3 was planted")
	_, errs, status = g.run("lift", "--planting", "bed-3", "--weighing", "1 kg - 0 g")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, "before bed-3 was planted")
}

// Weights already in the journal do not keep a new one out, however damaged.
func TestADamagedJournalKeepsNoWeightOut(t *testing.T) {
	g := newGarden(t)
	broken := filepath.Join(g.dir, "journal", "2031", "0719-1100-lift-bed-3.yaml")
	require.NoError(t, os.WriteFile(broken, []byte("kind: lift\nplanting: bed-3\n"), 0o644))
	g.ok("lift", "--planting", "bed-3", "--weighing", "1 kg - 0 g")
	_, errs, status := g.run("stock")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, "journal/2031/0719-1100-lift-bed-3.yaml:1:1: the key \"weighings\" is missing")
	out, errs, status := g.run("stock", "--skip-damaged")
	assert.Equal(t, statusDone, status)
	assert.Contains(t, errs, "warning: left out journal/2031/0719-1100-lift-bed-3.yaml")
	assert.Contains(t, out, "1.00 kg")
}

// A use whose lift is damaged is skipped with it, and so is a lift of nothing
// that was planted; the rest still works.
func TestSkippingWhatRestsOnDamage(t *testing.T) {
	g := newGarden(t)
	g.ok("use", "bed-3/35-55-sound", "100 g")
	season := filepath.Join(g.dir, "journal", "2031")
	require.NoError(t, os.WriteFile(filepath.Join(season, "0719-1035-lift-bed-3.yaml"), []byte("kind: lift\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(season, "0719-1200-lift-bed-7.yaml"),
		[]byte("kind: lift\nplanting: bed-7\nat: 2031-07-19 12:00\nweighings: [{gross: 1 kg}]\n"), 0o644))
	for _, command := range []string{"stock", "tally", "share"} {
		_, errs, status := g.run(command)
		assert.Equal(t, statusInput, status, command)
		assert.Contains(t, errs, "0719-1035-lift-bed-3.yaml:1:1", command)
		out, errs, status := g.run(command, "--skip-damaged")
		assert.Equal(t, statusDone, status, errs)
		assert.Contains(t, out, "tub-1", command)
		for _, file := range []string{"0719-1035-lift-bed-3", "0719-2000-use-bed-3", "0719-1200-lift-bed-7"} {
			assert.Contains(t, out+errs, file, "%s names what it left out", command)
		}
	}
}

func TestCorrectionsByCommand(t *testing.T) {
	g := newGarden(t)
	lift := g.wrote("lift", "--planting", "bed-3", "--weighing", "1 kg - 0 g", "--at", "2031-07-19 12:00")
	use := g.wrote("use", "bed-3/ungraded-sound", "200 g")
	_, errs, status := g.run("journal", "void", lift)
	assert.Equal(t, statusInput, status, "200 g of it were used")
	assert.Contains(t, errs, "there is no lot bed-3/2031-0719-1200-")
	_, errs, status = g.run("lift", "--planting", "bed-3", "--weighing", "1.2 kg - 0 g", "--at", "2031-07-19 12:00", "--replaces", lift, "--grade", "1.2 kg damaged")
	assert.Equal(t, statusInput, status, "the lot it was used from would be gone")
	assert.Contains(t, errs, "there is no lot")
	_, errs, status = g.run("lift", "--planting", "bed-3", "--weighing", "1.2 kg - 0 g", "--at", "2030-07-19 12:00", "--replaces", lift)
	assert.Equal(t, statusInput, status, errs)
	mended := g.wrote("lift", "--planting", "bed-3", "--weighing", "1.2 kg - 0 g", "--replaces", lift)
	assert.NotEqual(t, lift, mended)
	assert.Contains(t, mended, "0719-1200-lift-bed-3", "a correction is of the moment it corrects")
	assert.Contains(t, g.ok("stock"), "  1.00 kg   Ember Round beetroot, sound")
	second := g.wrote("use", "bed-3/ungraded-sound", "150 g", "--replaces", use)
	g.now = g.now.Add(48 * time.Hour)
	again := g.ok("use", "bed-3/ungraded-sound", "1.2 kg", "--replaces", second)
	assert.Contains(t, again, "nothing of it is left")
	third := g.nameIn(again)
	assert.Contains(t, third, "0719-2000-use-bed-3")
	fourth := g.wrote("use", "bed-3/ungraded-sound", "100 g", "--replaces", third)
	assert.Contains(t, g.ok("stock"), "  1.10 kg   Ember Round beetroot, sound")
	_, errs, status = g.run("use", "bed-3/ungraded-sound", "90 g", "--replaces", second)
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, second+".yaml: struck out or corrected already, by journal/2031/"+third+".yaml")
	g.ok("journal", "void", fourth)
	assert.Contains(t, g.ok("stock"), "  1.20 kg   Ember Round beetroot, sound")
	_, errs, _ = g.run("journal", "void", fourth)
	assert.Contains(t, errs, "struck out or corrected already")
	assert.Contains(t, g.ok("journal", "check"), "all is well")
}

// Two devices that log about one thing in one minute write two files, so that
// folders merge by copying and nothing is written over.
func TestTwoDevicesInOneMinute(t *testing.T) {
	here, there := newGarden(t), newGarden(t)
	here.ok("use", "bed-3", "100 g")
	there.ok("use", "bed-3", "150 g")
	there.ok("lift", "--planting", "bed-3", "--weighing", "1 kg - 0 g")
	here.ok("lift", "--planting", "bed-3", "--weighing", "0.9 kg - 0 g")
	files, err := filepath.Glob(filepath.Join(there.dir, "journal", "2031", "*.yaml"))
	require.NoError(t, err)
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(here.dir, "journal", "2031", filepath.Base(file)), data, 0o644))
	}
	tally := here.ok("tally", "--season", "2031")
	assert.Contains(t, tally, "2.52 kg lifted", "620 g, 1 kg and 900 g")
	assert.Contains(t, tally, "kitchen                 250 g", "100 g and 150 g")
	assert.Contains(t, here.ok("journal", "check"), "all is well")
}

// A tasting note is shown when the dish is next made.
func TestTastingNotesComeBack(t *testing.T) {
	g := newGarden(t)
	g.ok("note", "crushed potatoes with chives", "less salt, more chives")
	assert.Contains(t, g.ok("dish", "Crushed potatoes with chives", "--portions", "4"), "less salt, more chives")
	assert.Contains(t, g.ok("share", "Crushed potatoes with chives"), "less salt, more chives")
	assert.NotContains(t, g.ok("dish", "Spring onion mash", "--portions", "4"), "less salt")
}

// What was stored in autumn is still there in January, under its own season.
func TestStoredOverNewYear(t *testing.T) {
	g := newGarden(t)
	g.ok("store", "bed-3", "--where", "sand box", "--at", "2031-07-19 19:00")
	g.now = time.Date(2032, 1, 5, 12, 0, 0, 0, time.UTC)
	assert.Contains(t, g.ok("stock"), "in sand box")
	g.ok("use", "bed-3/35-55-sound", "200 g")
	files, err := filepath.Glob(filepath.Join(g.dir, "journal", "2031", "0105-1200-use-bed-3-*.yaml"))
	require.NoError(t, err)
	assert.Len(t, files, 1, "under the season of its lot")
	assert.Contains(t, g.ok("stock"), "  420 g     Ember Round beetroot")
	assert.Contains(t, g.ok("tally", "--season", "2031"), "kitchen                 200 g")
}

// A picture of the season is one well-formed SVG.
func TestTallyPicture(t *testing.T) {
	g := newGarden(t)
	file := filepath.Join(g.dir, "tally.svg")
	g.ok("tally", "--picture", file)
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	decoder := xml.NewDecoder(bytes.NewReader(data))
	bars := 0
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok && start.Name.Local == "rect" {
			bars++
		}
	}
	assert.Equal(t, 1+3+6, bars, "the ground, a bar for each planting, the legend")
}

func TestTableInAndOut(t *testing.T) {
	g := newGarden(t)
	table := filepath.Join(t.TempDir(), "old.csv")
	require.NoError(t, os.WriteFile(table, []byte("date,planting,weight_kg\n2031-07-01,bed-2,1.5\n2031-07-02,bed-9,2\n"), 0o644))
	out, errs, status := g.run("journal", "import", table)
	assert.Equal(t, statusInput, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "1 entry written, 1 row left out")
	assert.Contains(t, errs, `old.csv:3:1: planting "bed-9" is not in plantings.yaml`)
	_, errs, _ = g.run("journal", "import", table)
	assert.Contains(t, errs, "0 entries written, 1 in the journal already, 1 row left out")
	exported := g.ok("journal", "export", "--season", "2031")
	other := newGarden(t)
	require.NoError(t, os.RemoveAll(filepath.Join(other.dir, "journal")))
	require.NoError(t, os.WriteFile(table, []byte(exported), 0o644))
	assert.Contains(t, other.ok("journal", "import", table), "4 entries written")
	assert.Equal(t, exported, other.ok("journal", "export"))
	assert.Equal(t, g.ok("tally", "--season", "2031", "--json"), other.ok("tally", "--season", "2031", "--json"))
}

// Text answers keep to 80 columns and give the source of each figure.
func TestAccountTexts(t *testing.T) {
	g := newGarden(t)
	for _, args := range [][]string{{"stock"}, {"ready", "--on", "2031-07-10"}, {"tally", "--season", "2031"}} {
		short, long := g.ok(args...), g.ok(append(args, "--why")...)
		assert.True(t, strings.HasPrefix(long, strings.TrimRight(short, "\n")), args)
		assert.Contains(t, long, "\nWhy\n")
		for line := range strings.Lines(long) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, line)
		}
	}
}
