package main

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"runtime/debug"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
	"trencher/cmd/trencher/pocket"
	"trencher/harvest"
)

// asProgram makes the tests' own program act as trencher itself, or as its beginning.
const asProgram = "TRENCHER_AS_PROGRAM"

func TestMain(m *testing.M) {
	switch os.Getenv(asProgram) {
	case "1":
		main()
		return
	case "collecting late":
		collectLate()
		fmt.Println(debug.SetGCPercent(100), debug.SetMemoryLimit(-1))
		return
	}
	debug.SetGCPercent(400) // tests live for seconds: a fifth of their time went into collecting
	os.Exit(m.Run())
}

// The program in a process of its own: what it prints where, and its exit status.
func TestTheProgramItself(t *testing.T) {
	for _, c := range []struct {
		zone, args string
		status     int
		out, errs  string // begins of them
	}{
		{"", "--version", statusDone, "trencher unreleased\n", ""},
		{"Europe/London", "convert 1|lb|g", statusDone, "1 lb = 453.59237 g\n", ""},
		{"", "convert 1|lb|s", statusInput, "", ""},
		{"", "burn", statusUsage, "", `"burn" is not a command`},
		{"", "shar --demo", statusUsage, "", `"shar" is not a command`},
		{"", "--wat", statusUsage, "", "\"--wat\": there is no such flag"},
		{"Europe/Londn", "--version", statusInput, "", `TZ "Europe/Londn": no time zone known`},
	} {
		var out, errs bytes.Buffer
		cmd := exec.Command(os.Args[0], strings.FieldsFunc(c.args, func(r rune) bool { return r == ' ' || r == '|' })...)
		cmd.Env = append(os.Environ(), asProgram+"=1", "TZ="+c.zone)
		cmd.Stdout, cmd.Stderr, cmd.Dir = &out, &errs, t.TempDir()
		err := cmd.Run()
		var exit *exec.ExitError
		if c.status == statusDone {
			require.NoError(t, err, "%s: %s", c.args, errs.String())
		} else {
			require.ErrorAs(t, err, &exit, c.args)
			assert.Equal(t, c.status, exit.ExitCode(), c.args)
			assert.NotEmpty(t, errs.String())
		}
		assert.True(t, strings.HasPrefix(out.String(), c.out) && (out.Len() > 0) == (c.out != ""), "%s: %s", c.args, out.String())
		assert.True(t, strings.HasPrefix(errs.String(), c.errs), "%s: %s", c.args, errs.String())
	}
}

// A command that lives for a blink collects nothing until it has grown.
func TestCollectingLate(t *testing.T) {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), asProgram+"=collecting late")
	out, err := cmd.Output()
	require.NoError(t, err)
	var percent int
	var limit int64
	_, err = fmt.Sscan(string(out), &percent, &limit)
	require.NoError(t, err)
	assert.Equal(t, -1, percent)
	assert.Less(t, limit, int64(math.MaxInt64), "memory has a bound meanwhile")
}

// A machine on no network tells so where phones were to be let in; its own address
// stands on a line of its own.
func TestAddressesOfAMachineAlone(t *testing.T) {
	listener, err := page.Listen(0, false)
	require.NoError(t, err)
	defer listener.Close()
	for phone, says := range map[bool]string{false: "", true: "this machine is on no local network: no phone can reach the page yet\n"} {
		var out, errs bytes.Buffer
		env := &environment{out: &out, err: &errs}
		require.NoError(t, env.printAddresses(listener, phone))
		assert.Equal(t, listener.Addresses()[0]+"\n", out.String())
		assert.Equal(t, says, errs.String())
	}
}

// What is planted, its bowls, and flags beside them.
func TestWordsOfALift(t *testing.T) {
	for _, c := range []struct {
		words           []string
		planting        string
		bowls           []string
		taken, weighing string // or the bowls, "|" between them
		wrong           string
	}{
		{nil, "", nil, "", "", ""},
		{nil, "tub-1", []string{"1 kg"}, "tub-1", "1 kg", ""},
		{[]string{"tub-1"}, "", nil, "tub-1", "", ""},
		{[]string{"tub-1"}, "", []string{"1 kg"}, "tub-1", "1 kg", ""},
		{[]string{"tub-1", "1.2 kg - 250 g", "900 g"}, "", nil, "tub-1", "1.2 kg - 250 g|900 g", ""},
		{[]string{"tub-1"}, "tub-2", nil, "", "", "named twice"},
		{[]string{"tub-1", "1 kg"}, "", []string{"2 kg"}, "", "", "given twice"},
	} {
		q := ask.LiftQuestion{LiftWords: harvest.LiftWords{Planting: c.planting, Weighings: c.bowls}}
		err := takeLiftWords(&q, c.words)
		if c.wrong != "" {
			require.ErrorContains(t, err, c.wrong)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, []string{c.taken, c.weighing}, []string{q.Planting, strings.Join(q.Weighings, "|")})
	}
}

// A recipe is pasted as it stands; what cannot be read is told, and a text too long
// goes on to be refused as such.
func TestPasting(t *testing.T) {
	name, text, err := pasted(strings.NewReader("Soup\n"))
	require.NoError(t, err)
	assert.Equal(t, []string{"pasted", "Soup\n"}, []string{name, string(text)})
	broken := errors.New("torn")
	_, _, err = pasted(iotest.ErrReader(broken))
	require.ErrorIs(t, err, broken)
	var out, errs bytes.Buffer
	env := &environment{in: iotest.ErrReader(broken), out: &out, err: &errs, now: time.Now, program: noProgram}
	assert.Equal(t, statusInput, run(t.Context(), env, []string{"dish", "import", "-"}))
	assert.Contains(t, errs.String(), "torn")
	env.in = io.LimitReader(zeros{}, 3<<20)
	errs.Reset()
	assert.Equal(t, statusInput, run(t.Context(), env, []string{"dish", "import", "-"}))
	assert.NotEmpty(t, errs.String())
	assert.Empty(t, out.String())
}

// zeros is a text without an end.
type zeros struct{}

func (zeros) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	return len(p), nil
}

// A crop and its cut stand without their flags, or with them, never both.
func TestWordsOfACrop(t *testing.T) {
	onDemoCopy(t)
	for args, wrong := range map[string]string{
		`steam potato "cube 25 mm"`: "", `steam --crop potato --cut "cube 25 mm"`: "", `boil potato "cube 25 mm"`: "", `blanch "green beans" whole`: "",
		`steam potato "cube 25 mm" --crop potato`: "--crop", `boil potato "cube 25 mm" --cut "cube 20 mm"`: "--cut", `blanch potato "cube 25 mm" --crop carrot`: "--crop",
	} {
		words, err := splitWords(args)
		require.NoError(t, err)
		out, errs, status := trencher("", words...)
		assert.Equal(t, wrong == "", status == statusDone, "%s: %s", args, errs)
		assert.Equal(t, wrong == "", out != "", args)
		assert.Contains(t, errs, wrong, args)
	}
}

// A word alone that has commands below it tells of them.
func TestHelpWithoutAWord(t *testing.T) {
	for args, says := range map[string]string{"": "From the bed to the plate:", "journal": "trencher journal [command]"} {
		out, errs, status := trencher("", strings.Fields(args)...)
		assert.Equal(t, statusDone, status, errs)
		assert.Contains(t, out, says)
		assert.Empty(t, errs)
	}
}

// What a parcel brings that is not damaged is brought, and told with what is.
func TestAParcelInPartDamaged(t *testing.T) {
	onDemoCopy(t)
	var packed bytes.Buffer
	z := zip.NewWriter(&packed)
	for name, text := range map[string]string{
		"journal/2031/0719-1130-note-aaaa.yaml": "kind: note\ndish: Spring onion mash\nsays: less salt\nat: 2031-07-19T11:30:00+01:00\n",
		"journal/2031/0719-1131-note-bbbb.yaml": "kind: note\nsays: of nothing\n",
	} {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(text))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	require.NoError(t, os.WriteFile("parcel.zip", packed.Bytes(), 0o600))
	out, errs, status := trencher("", "journal", "bring", "parcel.zip")
	assert.Equal(t, statusInput, status)
	assert.Empty(t, out)
	assert.Contains(t, errs, "brought: 1 entry")
	assert.Contains(t, errs, "0719-1131-note-bbbb.yaml")
}

// A program for the phone that cannot be made is told, and nothing is written.
func TestNoProgramForThePhone(t *testing.T) {
	onDemoCopy(t)
	before := snapshot(t)
	broken := errors.New("no Go on this machine")
	for _, args := range []string{"pocket phone", "pocket --one-file phone.html", "pocket phone --serve --port 0"} {
		var out, errs bytes.Buffer
		env := &environment{in: strings.NewReader(""), out: &out, err: &errs, now: func() time.Time { return noon },
			program: func(context.Context, io.Writer) (pocket.Program, error) { return pocket.Program{}, broken }}
		assert.Equal(t, statusInput, run(t.Context(), env, strings.Fields(args)), args)
		assert.Contains(t, errs.String(), "no Go on this machine", args)
		assert.Contains(t, errs.String(), "packed: ", args)
		assert.Empty(t, out.String(), args)
		assert.Equal(t, before, snapshot(t), args)
	}
}

// Damaged entries stop the questions that rest on them, whatever is asked, and an
// output asked for is not begun.
func TestDamageStopsWhatRestsOnIt(t *testing.T) {
	onDemoCopy(t)
	require.NoError(t, os.WriteFile("journal/2031/0719-1100-lift-bed-3.yaml", []byte("kind: lift\nplanting: bed-3\n"), 0o600))
	before := snapshot(t)
	for _, args := range []string{"stock", "tally", "tally --picture p.svg", "next", "next --sheet n.html", "share --sheet s.html --calendar c.ics", "reckoner r.html", "ready", "journal check", "journal export", "use tub-1/20-45-sound 10|g", "reweigh tub-1/20-45-sound 800|g", "keep"} {
		words := strings.Fields(args)
		for i := range words {
			words[i] = strings.ReplaceAll(words[i], "|", " ")
		}
		out, errs, status := trencher("", words...)
		assert.Equal(t, statusInput, status, args)
		assert.Empty(t, out, args)
		assert.Contains(t, errs, "0719-1100-lift-bed-3.yaml", args)
	}
	assert.Equal(t, before, snapshot(t))
}
