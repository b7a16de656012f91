//go:build unix

package pocket

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fakeGo puts a Go tool of the test's own first on the path: it writes down what it
// is asked for, and does what script says.
func fakeGo(t *testing.T, script string) (asked string) {
	t.Helper()
	bin, root := t.TempDir(), t.TempDir()
	asked = filepath.Join(bin, "asked")
	require.NoError(t, os.MkdirAll(filepath.Join(root, "lib", "wasm"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js"), []byte("starter"), 0o644))
	text := "#!/bin/sh\necho \"$GOOS $GOARCH $CGO_ENABLED [$GOFLAGS] $PWD: $*\" >> " + asked + "\nROOT=" + root + "\n" + script
	require.NoError(t, os.WriteFile(filepath.Join(bin, "go"), []byte(text), 0o755))
	t.Setenv("PATH", bin+":/usr/bin:/bin")
	t.Setenv("GOFLAGS", "-mod=mod")
	return asked
}

const makesProgram = `case $1 in
env) echo $ROOT ;;
build) while [ "$1" != -o ]; do shift; done; printf 'the program' > "$2" ;;
esac
`

// The phone's program is made by the Go tool of this machine for the browser, small,
// and comes packed with what starts it.
func TestMakeAsksTheGoTool(t *testing.T) {
	asked := fakeGo(t, makesProgram)
	here, err := os.Getwd()
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	program, err := Make(t.Context())
	require.NoError(t, err)
	packed, err := gzip.NewReader(bytes.NewReader(program.Wasm))
	require.NoError(t, err)
	wasm, err := io.ReadAll(packed)
	require.NoError(t, err)
	assert.Equal(t, "the program", string(wasm))
	assert.Equal(t, "starter", string(program.Go))
	calls, err := os.ReadFile(asked)
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(calls)), "\n")
	require.Len(t, lines, 2)
	assert.Equal(t, "js wasm 0 [] "+here+": env GOROOT", lines[0])
	for _, part := range []string{"js wasm 0 [] " + here + ": build -trimpath -ldflags -s -w -o ", "program.wasm", " -gcflags=fmt=-l ", " -gcflags=trencher/cmd/...=-l ", " ./app"} {
		assert.Contains(t, lines[1], part)
	}
	assert.True(t, strings.HasSuffix(lines[1], " ./app"))
}

// What keeps a machine from making it is said.
func TestMakeSaysWhatIsMissing(t *testing.T) {
	for name, row := range map[string]struct{ script, says string }{
		"the tool fails":      {"echo broken >&2; exit 3\n", "could not make the program for the phone: exit status 3\nbroken"},
		"the build fails":     {"[ $1 = env ] && echo $ROOT && exit 0; echo no room >&2; exit 1\n", "exit status 1\nno room"},
		"nothing to start it": {"echo /nowhere\n", "the Go distribution here has no lib/wasm"},
		"nothing comes of it": {"echo $ROOT\n", "program.wasm: no such file"},
	} {
		fakeGo(t, row.script)
		_, err := Make(t.Context())
		require.ErrorContains(t, err, row.says, name)
	}
	fakeGo(t, makesProgram)
	t.Setenv("TMPDIR", filepath.Join(t.TempDir(), "none"))
	_, err := Make(t.Context())
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = sourceBeside(filepath.Join(t.TempDir(), "program.go"))
	require.ErrorIs(t, err, ErrNoProgram)
	assert.ErrorContains(t, err, "its source is not on this machine")
	t.Setenv("PATH", t.TempDir())
	_, err = Make(t.Context())
	require.ErrorIs(t, err, ErrNoProgram)
	assert.ErrorContains(t, err, "there is no Go tool on this machine")
}

// The one file holds all of the folder's: styles, scripts, program and plot.
func TestOneFileHoldsAll(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteOneFile(&out, Program{Wasm: []byte("W"), Go: []byte("starter</script>")}, []byte("P")))
	text := out.String()
	for _, part := range []string{shellText, styleText, engineText[len(engineText)-60:]} {
		assert.True(t, strings.Contains(text, part[:min(len(part), 200)]))
	}
	assert.True(t, strings.Contains(text, `starter<\/script>`))
	assert.True(t, strings.Contains(text, `id="program">Vw==<`))
	assert.True(t, strings.Contains(text, `id="plot">UA==<`))
	assert.Equal(t, "'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='", hashOf("abc"), "FIPS 180-2, appendix B.1")
	assert.Error(t, WriteOneFile(failing{}, Program{}, nil))
}

// Another name, another file or other bytes make another edition.
func TestEditions(t *testing.T) {
	seen := map[string]string{}
	for name, files := range map[string][]file{
		"one": {{"a", []byte("x")}}, "another name": {{"b", []byte("x")}}, "other bytes": {{"a", []byte("y")}}, "parted elsewhere": {{"a", nil}, {"b", []byte("x")}}, "and so": {{"a", []byte("x")}, {"b", nil}},
	} {
		_, edition, _ := strings.Cut(serviceWorker(files), `edition = "trencher-`)
		edition = edition[:16]
		assert.Empty(t, seen[edition], name)
		seen[edition] = name
	}
	assert.Contains(t, serviceWorker([]file{{"b", nil}, {"a", nil}}), `kept = ["./","a","b"];`)
	assert.ErrorIs(t, writing([]byte("x"))(failing{}), os.ErrClosed)
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, os.ErrClosed }

// A folder can be looked into by the web server of another user; one that cannot be
// made or written is told.
func TestFoldersOfThePocket(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "phone")
	require.NoError(t, WriteFolder(dir, Program{Wasm: []byte("W"), Go: []byte("G")}, []byte("P")))
	beside := filepath.Join(filepath.Dir(dir), "beside")
	require.NoError(t, os.Mkdir(beside, 0o755))
	info, err := os.Stat(dir)
	require.NoError(t, err)
	usual, err := os.Stat(beside)
	require.NoError(t, err)
	assert.Equal(t, usual.Mode(), info.Mode())
	for name, want := range map[string]string{programFile: "W", "go.js": "G", "plot.zip": "P"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		assert.Equal(t, want, string(data))
	}
	require.NoError(t, WriteFolder(dir, Program{Wasm: []byte("W2")}, nil), "an earlier one is renewed")
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	assert.ErrorContains(t, WriteFolder(filepath.Join(file, "phone"), Program{}, nil), "no folder")
	assert.ErrorContains(t, WriteFolder(file, Program{}, nil), "is no folder that can be written to")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "x"), 0o755))
	require.NoError(t, os.Remove(filepath.Join(dir, "go.js")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "go.js"), 0o755))
	assert.Error(t, WriteFolder(dir, Program{}, nil), "a name that is taken by a folder")
}
