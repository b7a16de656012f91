package strict

import (
	"bytes"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// The second route: the library's tree, and that nothing follows the document.
func byLibrary(text string) (*yaml.Node, bool) {
	decoder := yaml.NewDecoder(strings.NewReader(text))
	var document, second yaml.Node
	if decode(decoder, &document) != nil || decode(decoder, &second) != io.EOF {
		return nil, false
	}
	return document.Content[0], true
}

// bare takes from a library's tree what plainly leaves out.
func bare(n *yaml.Node) *yaml.Node {
	n.HeadComment, n.LineComment, n.FootComment = "", "", ""
	if n.Kind == yaml.ScalarNode && n.Style == 0 && n.Tag != "!!null" && n.Tag != "!!merge" {
		n.Tag = ""
	}
	for _, child := range n.Content {
		bare(child)
	}
	return n
}

// sameAsLibrary requires the library's very tree of whatever is read plainly.
func sameAsLibrary(t *testing.T, text string) (read bool) {
	t.Helper()
	if _, ok := (&Reader{}).clean([]byte(text)); !ok {
		return false
	}
	root, ok := plainly(new(room), text)
	if !ok {
		return false
	}
	want, ok := byLibrary(text)
	require.True(t, ok, "%q is no YAML", text)
	require.Equal(t, bare(want), root, "%q", text)
	return true
}

// Every file of a plot that the project has, and the tables too, is read as the
// library reads it, and nearly all of them plainly.
func TestPlainReadingIsTheLibrarys(t *testing.T) {
	files, plain := plotTexts(t), 0
	require.Greater(t, len(files), 60)
	for _, text := range files {
		if sameAsLibrary(t, text) {
			plain++
		}
	}
	assert.Greater(t, plain*100, len(files)*60, "%d of %d files are read plainly", plain, len(files))
}

func plotTexts(t testing.TB) (texts []string) {
	for _, top := range []string{"harvest", "recipes", "cmd", "testdata"} {
		require.NoError(t, filepath.WalkDir(filepath.Join("..", "..", top), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".yaml" {
				return err
			}
			data, err := os.ReadFile(path)
			if len(data) < 30_000 {
				texts = append(texts, string(data))
			}
			return err
		}))
	}
	return texts
}

func TestPlainReading(t *testing.T) {
	rows := []struct {
		text  string
		plain bool
	}{
		{"a: 1", true},
		{"a:\n  b: 2 # two\n\n  c: x y\nd: [1, {e: f, g: 10:05}]\n", true},
		{"a:\n- 1\n- b: 2\n  c: 3\nd: '½ of it' # half\n", true},
		{"- {a: b}\n-   c:  d\n", true},
		{"# said\na: b#c\n...\n\n", true},
		{"a: -3\nb: \"x\"\n", true},
		{"größe: ½ l\nb: {größe: ½, c: d}\n", true},

		{"", false}, {"a:\n", false}, {"a: ~", false}, {"null: 1", false}, {"a", false}, {"a: b: c", false}, {"a: b:", false},
		{"a: b\n  c\n", false}, {"a: b\n  c: d\n", false}, {" a: b", false}, {"a:\n    b: 1\n  c: 2\n", false},
		{"a: 'it''s'", false}, {`a: "\u0041"`, false}, {"a: 'x' y", false}, {"'a': b", false}, {"a: 'b': c", false}, {"a: 'b'#c", false},
		{"a: |\n  b", false}, {"a: &b c", false}, {"a: *b", false}, {"a: !!str b", false}, {"a:\tb", false}, {"<<: {a: b}", false}, {"? a\n: b", false},
		{"a: {}", false}, {"a: []", false}, {"a: {b}", false}, {"a: {b: }", false}, {"a: [b, ]", false}, {"a: [b: c]", false}, {"a: {b: c", false}, {"a: [b}", false}, {"a: {b:c}", false},
		{"a: [b,\n c]", false}, {"- - a", false}, {"-\n  a: b", false}, {"- # c\n  a", false}, {"-a: b\n", false}, {"a: - b", false},
		{"a: b\n- c\n", false}, {"- a\nb: c\n", false}, {"%a: b", false}, {"---\na: b", false}, {"a: b\n---\n", false}, {"a: b\n...\nc: d", false}, {"a: b\n... x", false},
		{"a: \U0001F954", false}, {"a : b", false}, {"a: `b`", false}, {"a: @b", false}, {"a: b\n...\n# c\n", false},
	}
	for _, row := range rows {
		assert.Equal(t, row.plain, sameAsLibrary(t, row.text), "%q", row.text)
	}
}

// Files of plots cut up and put together at random: what is read plainly is the
// library's, tree for tree.
func TestPlainReadingOfRandomTexts(t *testing.T) {
	texts := plotTexts(t)
	random := rand.New(rand.NewPCG(7, 1))
	const marks = "  \n\n-:#'\"{}[],.~?&*!|>%@`ab1½"
	plain := 0
	for range 20_000 {
		text := texts[random.IntN(len(texts))]
		from := random.IntN(len(text))
		piece := []byte(text[from:min(len(text), from+1+random.IntN(200))])
		for range random.IntN(4) {
			at, mark := random.IntN(len(piece)), marks[random.IntN(len(marks)-2)]
			if random.IntN(2) == 0 {
				piece[at] = mark
			} else {
				piece = bytes.Join([][]byte{piece[:at], piece[at:]}, []byte{mark})
			}
		}
		if random.IntN(2) == 0 { // begin with a line, at its indentation
			_, piece, _ = bytes.Cut(piece, []byte("\n"))
			lines := strings.Split(string(piece), "\n")
			indent := len(lines[0]) - len(strings.TrimLeft(lines[0], " "))
			for i, line := range lines {
				lines[i] = line[min(indent, len(line)-len(strings.TrimLeft(line, " "))):]
			}
			piece = []byte(strings.Join(lines, "\n"))
		}
		if sameAsLibrary(t, string(piece)) {
			plain++
		}
	}
	assert.Greater(t, plain, 1000)
}

// FuzzPlain: whatever is read plainly is read as the library does.
func FuzzPlain(f *testing.F) {
	for _, text := range plotTexts(f) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { sameAsLibrary(t, text) })
}

// BenchmarkParse reads a dish, by lines and by the library.
func BenchmarkParse(b *testing.B) {
	text, err := os.ReadFile("../../cmd/trencher/demo/plot/dishes/spring-onion-mash.yaml")
	require.NoError(b, err)
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			if _, ok := plainly(new(room), string(text)); !ok {
				b.Fatal()
			}
		}
	})
	b.Run("library", func(b *testing.B) {
		for b.Loop() {
			byLibrary(string(text))
		}
	})
}
