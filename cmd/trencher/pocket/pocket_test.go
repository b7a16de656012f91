package pocket

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small stands for the program where only the files around it count.
var small = Program{Wasm: []byte("wasm"), Go: []byte("starter")}

func ExampleWriteFolder() {
	dir, err := os.MkdirTemp("", "phone")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	if err := WriteFolder(dir, small, []byte("the plot")); err != nil {
		fmt.Println(err)
		return
	}
	list, _ := os.ReadDir(dir)
	for _, each := range list {
		fmt.Println(each.Name())
	}
	// Output:
	// app.webmanifest
	// engine.js
	// go.js
	// icon.png
	// icon.svg
	// index.html
	// page.js
	// plot.zip
	// pocket.css
	// program.wasm.gz
	// shell.js
	// worker.js
}

func readFolder(t *testing.T, dir string) map[string]string {
	t.Helper()
	list, err := os.ReadDir(dir)
	require.NoError(t, err)
	files := map[string]string{}
	for _, each := range list {
		data, err := os.ReadFile(filepath.Join(dir, each.Name()))
		require.NoError(t, err)
		files[each.Name()] = string(data)
	}
	return files
}

// The service worker keeps every file there is and the folder's own address; a
// change of any of them makes another edition.
func TestServiceWorkerKeepsEveryFile(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteFolder(dir, small, []byte("one")))
	first := readFolder(t, dir)
	for name := range first {
		if name != "worker.js" {
			assert.Contains(t, first["worker.js"], `"`+name+`"`)
		}
	}
	assert.NotContains(t, regexp.MustCompile(`kept = (.*);`).FindString(first["worker.js"]), programFile, "it is kept unpacked")
	assert.Contains(t, first["worker.js"], `"./"`)
	edition := regexp.MustCompile(`edition = "trencher-[0-9a-f]{16}"`)
	require.Regexp(t, edition, first["worker.js"])
	require.NoError(t, WriteFolder(dir, small, []byte("two")))
	second := readFolder(t, dir)
	assert.NotEqual(t, edition.FindString(first["worker.js"]), edition.FindString(second["worker.js"]))
	program := regexp.MustCompile(`trencher-program-[0-9a-f]{16}`)
	require.Regexp(t, program, first["worker.js"])
	assert.Equal(t, program.FindString(first["worker.js"]), program.FindString(second["worker.js"]), "a newer plot does not load the program again")
	require.NoError(t, WriteFolder(dir, small, []byte("one")))
	assert.Equal(t, first, readFolder(t, dir), "the same plot makes the same bytes")
}

// A folder with anything else in it is left as it is.
func TestForeignFoldersAreRefused(t *testing.T) {
	for _, name := range []string{"letter.txt", "index.html"} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("<p>mine</p>"), 0o644))
		assert.ErrorContains(t, WriteFolder(dir, small, nil), "holds other things")
		assert.Equal(t, map[string]string{name: "<p>mine</p>"}, readFolder(t, dir))
	}
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	assert.ErrorContains(t, WriteFolder(file, small, nil), "no folder that can be written to")
	garden := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(garden, "kitchen.yaml"), nil, 0o644))
	assert.Error(t, WriteFolder(filepath.Join(garden, "journal", "2031"), small, nil), "among a plot's entries")
}

// The pages let our own scripts and styles run and nothing else.
func TestPolicyIsStrict(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteFolder(dir, small, nil))
	var one bytes.Buffer
	require.NoError(t, WriteOneFile(&one, small, nil))
	for name, page := range map[string]string{"folder": readFolder(t, dir)["index.html"], "one file": one.String()} {
		policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(page)
		require.NotNil(t, policy, name)
		text := strings.ReplaceAll(policy[1], "&#39;", "'")
		assert.True(t, strings.HasPrefix(text, "default-src 'none'; "), text)
		assert.NotContains(t, text, "unsafe-inline")
		assert.NotContains(t, text, "'unsafe-eval'")
		assert.NotContains(t, text, "http")
		assert.NotContains(t, text, "*")
		assert.Contains(t, text, "'wasm-unsafe-eval'")
		assert.Contains(t, text, "base-uri 'none'")
	}
}

// Each inline script and style of the one file is named in its policy by its
// hash (Content Security Policy Level 3, W3C).
func TestOneFileNamesItsScripts(t *testing.T) {
	var one bytes.Buffer
	require.NoError(t, WriteOneFile(&one, Program{Wasm: []byte("wasm"), Go: []byte("x = '</script>'")}, []byte("plot")))
	page := strings.ReplaceAll(one.String(), "&#39;", "'")
	page = strings.ReplaceAll(page, "&#43;", "+")
	for _, inline := range regexp.MustCompile(`(?s)<(script|style)>(.*?)</(?:script|style)>`).FindAllStringSubmatch(page, -1) {
		assert.Contains(t, page, hashOf(inline[2]), inline[1])
	}
	assert.Equal(t, 5, strings.Count(one.String(), "</script>"), "no script ends early")
}
