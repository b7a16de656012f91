package main

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest/tables"
)

// quietYardstick is what the yardstick took on the machine of DEVELOPERS.md while
// nothing else ran: targets are reckoned from there.
const quietYardstick = 150 * time.Millisecond

// TestBounds runs the program as it is waited for, on the largest input each reader
// takes, and prints the table of DEVELOPERS.md:
//
//	TRENCHER_BOUNDS=1 go test ./cmd/trencher -run TestBounds -v -count=1
//
// It fails where processor time is more than twice what the target allows on this
// machine, by what a piece of sorting takes in the same run, and where memory is
// above its target. No clock is asked.
func TestBounds(t *testing.T) {
	if os.Getenv("TRENCHER_BOUNDS") == "" {
		t.Skip("writes 200,000 files and takes a minute; set TRENCHER_BOUNDS=1")
	}
	program, bare := buildProgram(t, "."), buildProgram(t, "./testdata/bare")
	slower := float64(yardstick()) / float64(quietYardstick)
	bounds := []bound{
		{"`--help`, the least of 20", 20, 10 * time.Millisecond, 200, quietPlot, strings.Fields("--help")},
		{"`share --demo`, the least of 20", 20, 0, 200, quietPlot, strings.Fields("share --demo")},
	}
	bounds = append(bounds, largestInputs()...)
	bounds = append(bounds, largestJournals()...)
	fmt.Printf("Sorting took %.1f times as long as on a quiet machine.\n\n", slower)
	fmt.Println("| what is run | target | processor time | memory |\n|---|---|---|---|")
	for _, b := range bounds {
		took, peak := b.run(t, program)
		target := "5 times bare"
		if b.most > 0 {
			target = fmt.Sprint(b.most)
			assert.Less(t, took.Seconds(), 2*slower*b.most.Seconds(), "%s: seconds of processor time", b.what)
		}
		fmt.Printf("| %s | %s, %d MB | %v | %d MB |\n", b.what, target, b.megabytes, took.Round(100*time.Microsecond), peak)
		assert.LessOrEqual(t, peak, b.megabytes, "%s: MB", b.what)
	}
	shared, plain := leastTimes(t, program, bare)
	processor, clock := shared.times(plain)
	fmt.Printf("| a bare program on the same libraries, by turns with `share --demo` | | %v: `share --demo` is %.1f times that, and %.1f times on the clock (%v, %v) | |\n",
		plain.processor, processor, clock, shared.clock.Round(100*time.Microsecond), plain.clock.Round(100*time.Microsecond))
	assert.Less(t, processor, float64(mostTimesBare))
	fmt.Printf("| a simple screen of the page beside slow plans, p99 on the clock | 300ms | %s | |\n", screenBesideSlowPlans(t))
}

// screenBesideSlowPlans is what the benchmark of package page measures.
func screenBesideSlowPlans(t *testing.T) string {
	out, err := exec.Command("go", "test", "./page", "-run", "^$", "-bench", "SimpleScreenBesideSlowPlans", "-benchtime", "300x").CombinedOutput()
	require.NoError(t, err, string(out))
	before, _, found := strings.Cut(string(out), " p99-ms")
	require.True(t, found, string(out))
	fields := strings.Fields(before)
	return fields[len(fields)-1] + "ms"
}

// bound is a run of the program and what it may take.
type bound struct {
	what      string
	times     int // the least of so many runs counts
	most      time.Duration
	megabytes int
	plot      func(t *testing.T) (dir string)
	args      []string // {} is the plot
}

// run is the processor time and the most memory, in MB, of a run. Linux counts the
// memory of who starts a program as its own: below some 50 MB it is the test's.
func (b bound) run(t *testing.T, program string) (took time.Duration, peak int) {
	dir := b.plot(t)
	var args []string
	for _, arg := range b.args {
		args = append(args, strings.ReplaceAll(arg, "{}", dir))
	}
	for range b.times {
		run := exec.Command(program, args...)
		if out, err := run.CombinedOutput(); err != nil {
			require.FailNow(t, b.what, "%v: %s", err, out[:min(len(out), 500)])
		}
		once := run.ProcessState.UserTime() + run.ProcessState.SystemTime()
		if took == 0 || once < took {
			took = once
		}
		peak = max(peak, int(run.ProcessState.SysUsage().(*syscall.Rusage).Maxrss>>10))
	}
	return took, peak
}

// yardstick is the processor time of a fixed piece of work: as busy as the machine is.
func yardstick() time.Duration {
	before := ownProcessorTime()
	random := rand.New(rand.NewPCG(1, 2))
	list := make([]uint64, 2_000_000)
	for i := range list {
		list[i] = random.Uint64()
	}
	slices.Sort(list)
	return ownProcessorTime() - before
}

func ownProcessorTime() time.Duration {
	var used syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &used)
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

const boundsPlanting = "- {id: tub-3, crop: potato, class: second early, planted: 2031-04-02, tub: 30 l}\n"

// plotWith is a plot whose files are those of a usual one, and these.
func plotWith(files map[string]string) func(t *testing.T) string {
	return func(t *testing.T) string {
		dir := t.TempDir()
		for name, text := range map[string]string{"kitchen.yaml": "measures: metric\nfridge: 4 C\n", "plantings.yaml": boundsPlanting} {
			files[name] = cmp.Or(files[name], text)
		}
		for name, text := range files {
			file := filepath.Join(dir, filepath.FromSlash(name))
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		}
		return dir
	}
}

func quietPlot(*testing.T) string { return "" }

// largestInputs are the readers, each at the largest that it takes: a second word
// more, and it is refused (see the tests named in DEVELOPERS.md).
func largestInputs() []bound {
	many := func(n int, form string) string {
		var out strings.Builder
		for i := range n {
			fmt.Fprintf(&out, form, 10+i)
		}
		return out.String()
	}
	lift := "kind: lift\nplanting: tub-3\nat: 2031-07-12T10:00:00Z\nweighings:\n"
	of := func(what string, files map[string]string, args ...string) bound {
		return bound{what, 1, 2 * time.Second, 200, plotWith(files), args}
	}
	soup := "Soup\nServes 4\nIngredients\n"
	return []bound{
		of("kitchen.yaml, 1 MB", map[string]string{"kitchen.yaml": "measures: metric\n" + strings.Repeat("# a remark of the kitchen\n", 40_000)}, "ready", "--plot", "{}", "--on", "2031-07-12"),
		of("plantings.yaml, 3,000 plantings", map[string]string{"plantings.yaml": many(3000, "- {id: tub-%d, crop: potato, planted: 2031-04-02}\n")}, "ready", "--plot", "{}", "--on", "2031-07-12"),
		of("a dish, 50 crops and 1,000 ingredients", map[string]string{"dishes/d.yaml": "name: A\nportions: 2\ncrops:\n" + many(50, "  - {crop: potato, amount: 1 kg, cut: cube %d mm}\n") + "others:\n" + many(1000, "  - {item: thing %d, amount: 5 g}\n")},
			"journal", "check", "--plot", "{}"),
		of("an entry, 1 MB: 35,000 bowls", map[string]string{"journal/2031/0712-1000-lift-tub-3.yaml": lift + strings.Repeat("  - {gross: 2 g, tare: 1 g}\n", 35_000)}, "stock", "--plot", "{}", "--on", "2031-07-13"),
		of("a table, 2,500 rows, written", map[string]string{"t.csv": "date,planting,weight\n" + many(tables.MostRows, "2031-07-12,tub-3,%d.5 g\n")}, "journal", "import", "{}/t.csv", "--plot", "{}", "--write"),
		of("a table, 2,500 rows of 80 columns, shown", map[string]string{"t.csv": "at,planting,weight,says" + strings.Repeat(",", 76) + "\n" + strings.Repeat("2031-07-12,tub-3,1 kg,"+strings.Repeat("dry ", 350)+strings.Repeat(",", 76)+"\n", tables.MostRows-10)}, "journal", "import", "{}/t.csv", "--plot", "{}"),
		of("a recipe, 950 ingredients that no table knows", map[string]string{"r.txt": soup + many(950, "%d g thing number chopped finely and stirred and folded\n") + "Method\nBoil it for 5 minutes.\n"}, "dish", "import", "{}/r.txt", "--plot", "{}"),
		of("a recipe, 950 lines of brackets in brackets", map[string]string{"r.txt": "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1 (", 100)+"x"+strings.Repeat(")", 90)+"\n", 950)}, "dish", "import", "{}/r.txt", "--plot", "{}"),
		of("a recipe, 950 lines of alternatives", map[string]string{"r.txt": "Soup\nIngredients\n" + strings.Repeat(strings.Repeat("1 g a or ", 40)+"salt\n", 950)}, "dish", "import", "{}/r.txt", "--plot", "{}"),
		of("a page, 4 MB", map[string]string{"r.html": "<html><body>" + strings.Repeat("<div>so it is told on and on, of the plot and not of the pot</div>\n", 60_000) + "<section itemscope itemtype='https://schema.org/Recipe'><h1 itemprop=name>Soup</h1>" + strings.Repeat("<p itemprop=recipeIngredient>1 g salt</p>", 900) + "</section>"}, "dish", "import", "{}/r.html", "--plot", "{}"),
	}
}

// largestJournals are journals of a hundred thousand entries: lifts of two lots
// each, all of them on hand, and one lift to seven uses.
func largestJournals() []bound {
	const entries = 100_000
	season := func(aLiftEvery int) func(t *testing.T) string {
		dir := ""
		return func(t *testing.T) string {
			if dir == "" {
				dir = plotWith(map[string]string{})(t)
				writeSeason(t, filepath.Join(dir, "journal", "2031"), entries, aLiftEvery)
			}
			return dir
		}
	}
	lifts, uses := season(1), season(8)
	of := func(what string, plot func(*testing.T) string, args ...string) bound {
		return bound{what, 1, 5 * time.Second, 200, plot, append([]string{"stock", "--plot", "{}", "--on", "2031-12-31"}, args...)}
	}
	return []bound{
		of("`stock` of 100,000 entries, a lift to seven uses", uses),
		of("`stock` of 100,000 lifts, 200,000 lots on hand", lifts),
		of("the same as JSON", lifts, "--json"),
	}
}

// writeSeason writes entries as they are written, a lift first and then uses of it.
func writeSeason(t *testing.T, folder string, entries, aLiftEvery int) {
	require.NoError(t, os.MkdirAll(folder, 0o755))
	moment := func(i int) time.Time { return time.Date(2031, 6, 1, 0, 0, 150*i, 0, time.UTC) }
	for i := range entries {
		at, lift := moment(i), i/aLiftEvery*aLiftEvery
		head := fmt.Sprintf("at: %s\nby: cf64az\nlogged: %s\n", at.Format(time.RFC3339), at.Format(time.RFC3339))
		name := fmt.Sprintf("%s-lift-tub-3-%06d.yaml", at.Format("0102-1504"), i)
		text := "kind: lift\nplanting: tub-3\n" + head + fmt.Sprintf("weighings:\n  - {gross: 1.46 kg, tare: 0.31 kg}\ngrades:\n  - {sizes: 20-45 mm, weight: %d g, condition: scabby}\n...\n", 100+i%900)
		if i != lift {
			name = fmt.Sprintf("%s-use-%06d.yaml", at.Format("0102-1504"), i)
			text = "kind: use\n" + head + fmt.Sprintf("lot: tub-3/2031-%s-%06d/ungraded-sound\nweight: %d g\ndish: Mash\n...\n", moment(lift).Format("0102-1504"), lift, 10+i%20)
		}
		text = "# entry of the journal; it is whole when its last line is \"...\"\n" + text
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
	}
}
