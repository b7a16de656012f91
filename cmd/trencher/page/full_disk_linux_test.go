package page

import (
	"errors"
	"html"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// Every form that writes, sent while the disk of the plot is full: the screen that
// answers says what was not written, why, and what to do, has all boxes as they were
// typed, and nothing on the disk is other than before. Once there is room, the same
// form is written.
func TestFormsOnAFullDisk(t *testing.T) {
	for name, sent := range sentForms() {
		t.Run(name, func(t *testing.T) {
			g := onSmallDisk(t)
			if sent.prepared != nil {
				sent.prepared(g, sent.form)
			}
			sent.form.Set("once", tokenOf(t, g, sent.path))
			if sent.form.Has("lot") { // as a browser names it
				named := regexp.MustCompile(`<option value="([^"]+/20-45-sound)"`).FindStringSubmatch(g.get(sent.path).Body.String())
				sent.form.Set("lot", named[1])
			}
			before := contentsUnder(t, g.dir)
			filler := fillDisk(t, g.dir)

			w := g.post(sent.path, sent.form)
			require.NotEqual(t, http.StatusSeeOther, w.Code, "nothing was written")
			body := w.Body.String()
			text := html.UnescapeString(body)
			assert.Contains(t, body, "<title>Error: ")
			if sent.form.Has("lot") {
				assert.Contains(t, body, `value="`+sent.form.Get("lot")+`" selected`)
			}
			assert.Regexp(t, "Not written: journal/2031/|Cannot write .*/plot/", text)
			assert.Contains(t, text, "no space left on device")
			assert.Contains(t, text, "once you have made room: the disk is full")
			for box, values := range sent.form {
				value := strings.TrimSpace(values[0])
				if !pressed[box] && !strings.Contains(text, ">"+value) {
					assert.Contains(t, text, `"`+value+`"`, "%s is kept", box)
				}
			}
			require.NoError(t, os.Remove(filler))
			assert.Equal(t, before, contentsUnder(t, g.dir), "nothing is half-written, nothing lost")

			w = g.post(sent.path, sent.form)
			require.Equal(t, http.StatusSeeOther, w.Code, w.Body.String())
			require.Contains(t, w.Header().Get("Location"), "done=")
			after := contentsUnder(t, g.dir)
			written := ""
			for file, contents := range after {
				if before[file] != contents {
					written += contents
				}
			}
			assert.Contains(t, written, sent.holds)
		})
	}
}

// pressed are what buttons and the screen itself send, which nobody typed.
var pressed = map[string]bool{"once": true, "go": true, "keep": true, "step": true}

// onSmallDisk is the usual plot on a disk of a megabyte.
func onSmallDisk(t *testing.T) *gardener {
	mount := t.TempDir()
	if err := syscall.Mount("tmpfs", mount, "tmpfs", 0, "size=1m"); err != nil {
		t.Skipf("no small disk can be mounted here (%v); TestFullDiskIsToldWhole and the failing disk of TestPlaceIsAllOrNothing stand for it", err)
	}
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(mount, syscall.MNT_DETACH)) })
	dir := filepath.Join(mount, "plot")
	require.NoError(t, os.CopyFS(dir, os.DirFS(newPlot(t))))
	p := newPage(t, Options{Where: ask.PlotRef{Dir: dir, Device: func() string { return "aaaaaa" }}, Now: func() time.Time { return testNow }})
	return &gardener{t: t, dir: dir, page: p, handler: p.Handler()}
}

// fillDisk takes what room there is beside a plot.
func fillDisk(t *testing.T, dir string) (filler string) {
	filler = filepath.Join(filepath.Dir(dir), "filler")
	file, err := os.Create(filler)
	require.NoError(t, err)
	defer file.Close()
	for err == nil {
		_, err = file.Write(make([]byte, 4096))
	}
	require.True(t, errors.Is(err, syscall.ENOSPC), err)
	return filler
}

// contentsUnder are the files of a folder.
func contentsUnder(t *testing.T, dir string) map[string]string {
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := os.ReadFile(file)
		found[file] = string(data)
		return err
	}))
	return found
}
