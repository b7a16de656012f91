package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A slip is something written down in one go, by a command or a form, in a plot
// that begin has made.
type slip struct {
	name  string
	whole bool // one entry: all of it is written or none
	args  func(folder, dir string) []string
	form  func(address string) error // sent to the page, if it is a form
}

func slips() []slip {
	return []slip{
		{name: "lift", whole: true, args: func(_, dir string) []string {
			return []string{"lift", "--plot", dir, "--planting", "tub-1", "--weighing", "1.46 kg - 0.31 kg", "--sure"}
		}},
		{name: "share --take", whole: true, args: func(_, dir string) []string {
			return []string{"share", "Spring onion mash", "--plot", dir, "--take"}
		}},
		{name: "journal import", args: func(folder, dir string) []string {
			return []string{"journal", "import", filepath.Join(folder, "old.csv"), "--plot", dir, "--dates", "ymd", "--write"}
		}},
		{name: "journal bring", args: func(folder, dir string) []string {
			return []string{"journal", "bring", filepath.Join(folder, "parcel.zip"), "--plot", dir}
		}},
		{name: "the form that weighs", whole: true, args: pageOf, form: func(address string) error {
			return submit(address+"weigh", url.Values{"planting": {"tub-1"}, "unit": {"kg"}, "bowl-1-full": {"1.46"}, "bowl-1-empty": {"0.31"}})
		}},
		{name: "the form that records", whole: true, args: pageOf, form: func(address string) error {
			return submit(address+"share?go=1&dish=Spring+onion+mash", nil)
		}},
	}
}

func pageOf(_, dir string) []string { return []string{"page", "--plot", dir, "--port", "0"} }

var (
	posted = regexp.MustCompile(`(?s)<form[^>]*method="post" action="([^"]*)"[^>]*>(.*?)</form>`)
	hidden = regexp.MustCompile(`<input type="hidden" name="([^"]*)" value="([^"]*)">`)
)

// submit fills in the first form of a page that writes, and sends it.
func submit(page string, fill url.Values) error {
	answer, err := http.Get(page)
	if err != nil {
		return err
	}
	body, err := io.ReadAll(answer.Body)
	answer.Body.Close()
	form := posted.FindSubmatch(body)
	if err != nil || form == nil {
		return fmt.Errorf("no form at %s: %w", page, err)
	}
	values := url.Values{}
	for _, field := range hidden.FindAllSubmatch(form[2], -1) {
		values.Set(string(field[1]), string(field[2]))
	}
	for name, value := range fill {
		values[name] = value
	}
	to, err := url.Parse(page)
	if err != nil {
		return err
	}
	answer, err = http.PostForm(to.ResolveReference(&url.URL{Path: string(form[1])}).String(), values)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	_, err = io.Copy(io.Discard, answer.Body)
	return err
}

// The whole program is killed before each call of the system by which it writes,
// as often as one of its threads makes it: it writes all it was told or nothing, the
// plot can be read, and doing it again brings what a program nobody killed brings.
// `strace` (Debian's strace) stops it; where that may not trace, package journal's
// TestKilledAtEveryCall is what there is.
func TestKilledAtEverySystemCall(t *testing.T) {
	if os.Getenv("TRENCHER_LIVE") == "" {
		t.Skip("needs strace, which .ci/run installs: set TRENCHER_LIVE=1; TestKilledAtEveryCall in harvest/journal runs always")
	}
	if out, err := exec.Command("strace", "-qq", "-o", os.DevNull, "true").CombinedOutput(); err != nil {
		require.NotErrorIs(t, err, exec.ErrNotFound)
		t.Logf("no program may be traced here (%s): only the double of the file system was tried", strings.TrimSpace(string(out)))
		return
	}
	program := filepath.Join(t.TempDir(), "trencher")
	out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput()
	require.NoError(t, err, string(out))
	for _, s := range slips() {
		t.Run(s.name, func(t *testing.T) {
			k := killing{program: program, slip: s}
			clean := k.plot(t)
			before := k.stock(t, clean)
			k.run(t, clean, "", 0)
			after := k.stock(t, clean)
			require.NotEqual(t, before, after)
			for _, call := range []string{"write", "fsync", "linkat", "unlinkat"} {
				times := 0
				for killed := true; killed; {
					killed = k.killedAt(t, call, times+1, before, after)
					if killed {
						times++
					}
				}
				t.Logf("%s: killed at %d calls", call, times)
				assert.Positive(t, times, call)
			}
		})
	}
}

// killing is the program that is killed, and what it is to write.
type killing struct {
	slip
	program string
}

// plot makes the same plot every time, and beside it what is brought in.
func (k *killing) plot(t *testing.T) (dir string) {
	t.Helper()
	folder := t.TempDir()
	phone := filepath.Join(folder, "phone")
	dir = filepath.Join(folder, "plot")
	k.trencher(t, "begin", dir)
	k.trencher(t, "begin", phone)
	k.trencher(t, "lift", "--plot", phone, "--planting", "tub-1", "--weighing", "640 g", "--sure")
	k.trencher(t, "lift", "--plot", phone, "--planting", "bed-2", "--weighing", "950 g", "--sure")
	k.trencher(t, "journal", "pack", filepath.Join(folder, "parcel.zip"), "--plot", phone)
	day := time.Now().AddDate(0, 0, -2).Format(time.DateOnly)
	table := fmt.Sprintf("Weights\nplanting;day;kg\ntub-1;%s;1,2\nbed-2;%s;0,8\n", day, day)
	require.NoError(t, os.WriteFile(filepath.Join(folder, "old.csv"), []byte(table), 0o644))
	return dir
}

func (k *killing) trencher(t *testing.T, args ...string) string {
	t.Helper()
	var errs strings.Builder
	cmd := exec.Command(k.program, args...)
	cmd.Stderr = &errs
	out, err := cmd.Output()
	require.NoError(t, err, "%v: %s", args, errs.String())
	return string(out)
}

// stock is what is on hand, without the moments of lifting.
func (k *killing) stock(t *testing.T, dir string) string {
	t.Helper()
	k.trencher(t, "journal", "check", "--plot", dir)
	return moments.ReplaceAllString(k.trencher(t, "stock", "--plot", dir), "")
}

var moments = regexp.MustCompile(`\[[^\]]*\]`)

// run does what is to be written; a call of the system kills it at the Nth time
// one of its threads makes it, if one is named. It returns whether it was killed.
func (k *killing) run(t *testing.T, dir, call string, n int) (killed bool) {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	args := append([]string{k.program}, k.args(filepath.Dir(dir), dir)...)
	if call != "" {
		args = append([]string{"strace", "-f", "-qq", "-o", os.DevNull, "-e", "trace=" + call,
			"-e", fmt.Sprintf("inject=%s:signal=KILL:when=%d", call, n)}, args...)
	}
	cmd := exec.CommandContext(ctx, args[0], args[1:]...)
	cmd.Env = append(os.Environ(), "GOMAXPROCS=1")
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	if k.form != nil {
		address, _ := bufio.NewReader(out).ReadString('\n')
		if address != "" {
			killed = k.form(strings.TrimSpace(address)) != nil
		}
		_ = syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL) // what it answered is on the disk
		_ = cmd.Wait()
		return killed || address == ""
	}
	_, _ = io.Copy(io.Discard, out)
	err = cmd.Wait()
	require.NoError(t, ctx.Err())
	return err != nil
}

// killedAt has the program killed, looks at what is there, and does it again if
// nothing was written. It returns false if the program was done before.
func (k *killing) killedAt(t *testing.T, call string, n int, before, after string) bool {
	t.Helper()
	dir := k.plot(t)
	killed := k.run(t, dir, call, n)
	now := k.stock(t, dir)
	if !killed {
		require.Equal(t, after, now, "%s, call %d", call, n)
		return false
	}
	if k.whole {
		require.Contains(t, []string{before, after}, now, "%s, call %d", call, n)
	}
	if !k.whole || now == before {
		k.run(t, dir, "", 0)
		now = k.stock(t, dir)
	}
	require.Equal(t, after, now, "%s, call %d", call, n)
	return true
}
