package saved

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units/spelled"
)

// plainTexts are the corpora's plain texts by their names.
func plainTexts(t *testing.T) (names []string, texts map[string]string) {
	t.Helper()
	texts = map[string]string{}
	for _, pattern := range []string{"../../testdata/recipes/*/*.txt", "testdata/*.txt"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, file := range files {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			if !utf8.Valid(data) || bytes.ContainsAny(data, "\x00") {
				continue // another character set: units/charset
			}
			names = append(names, filepath.Base(filepath.Dir(file))+"/"+filepath.Base(file))
			texts[names[len(names)-1]] = string(data)
		}
	}
	require.Greater(t, len(names), 100)
	return names, texts
}

func reviewed(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, spelled.Difference(string(want), got))
}

// deformed are the ways in which a text is laid out otherwise.
var deformed = []struct {
	name string
	line func(i int, line string) string
}{
	{"without gaps", func(_ int, line string) string {
		if strings.TrimSpace(line) == "" {
			return "-drop"
		}
		return line
	}},
	{"with gaps", func(_ int, line string) string { return line + "\n" }},
	{"bulleted", func(_ int, line string) string {
		if strings.TrimSpace(line) == "" {
			return line
		}
		return "- " + line
	}},
	{"numbered", func(i int, line string) string {
		if strings.TrimSpace(line) == "" || i < 3 {
			return line
		}
		return fmt.Sprintf("%d. %s", i-2, line)
	}},
	{"without headings", func(_ int, line string) string {
		if text := heading(strings.TrimSpace(line)); ingredientsHead.MatchString(text) || methodHead.MatchString(text) {
			return "-drop"
		}
		return line
	}},
	{"without full stops", func(_ int, line string) string { return strings.TrimRight(line, ". \r") }},
	{"from the fourth line", func(i int, line string) string {
		if i < 3 {
			return "-drop"
		}
		return line
	}},
	{"quoted", func(_ int, line string) string { return "> " + line }},
	{"pushed in", func(i int, line string) string {
		if i%2 == 0 {
			return line
		}
		return "    " + line
	}},
	{"broken", func(_ int, line string) string {
		if at := strings.IndexByte(line[min(len(line), 24):], ' '); at >= 0 {
			return line[:24+at] + "\n" + line[25+at:]
		}
		return line
	}},
	{"passed on", func(i int, line string) string {
		if i == 0 {
			return "Hi,\nlook at this!\n---- Forwarded message ----\nFrom: a@b.example\nSubject: Fwd: " + line
		}
		return line
	}},
	{"signed", func(i int, line string) string {
		if i == 0 {
			return "Dear all,\n\n" + line
		}
		return line + map[bool]string{true: "\n\nWith love,\nPat\n--\nsent from here"}[strings.HasPrefix(line, "Serve")]
	}},
}

// Every plain text of the corpora, laid out in other ways: a letter for each line's
// role, as when somebody last read the difference. What is right of it nobody has said
// by hand; it notices what moves.
func TestTextsLaidOutOtherwise(t *testing.T) {
	names, texts := plainTexts(t)
	var out strings.Builder
	for _, name := range names {
		n := crc32.ChecksumIEEE([]byte(name)) % 720 // its own, whatever texts come beside it
		for d := range deformed {
			if (int(n)+d)%4 != 0 {
				continue
			}
			var lines []string
			for i, line := range strings.Split(texts[name], "\n") {
				if line = deformed[d].line(i, strings.TrimRight(line, "\r")); line != "-drop" {
					lines = append(lines, line)
				}
			}
			r := fromPlain(strings.Join(lines, "\n"))
			roles, words := "", 0
			for _, l := range r.Lines {
				roles += string("ntyhis"[l.Role])
				words += len(l.Text) + l.Line
			}
			fmt.Fprintf(&out, "%s %s: %s|%s|%d", name, deformed[d].name, r.Name, roles, words)
			for _, unsure := range []struct {
				is   bool
				what string
			}{{r.NameUnsure, " name"}, {r.StepsUnsure, " steps"}, {r.ListUnsure, " list"}} {
				if unsure.is {
					fmt.Fprint(&out, unsure.what)
				}
			}
			fmt.Fprintln(&out)
		}
	}
	reviewed(t, "../../testdata/recipes/laid-out.txt", out.String())
}

// Every line of the corpora's plain texts, by all that is asked of a line by itself.
func TestEveryLineIsLookedAtAsReviewed(t *testing.T) {
	names, texts := plainTexts(t)
	var out strings.Builder
	seen := map[string]bool{}
	for _, name := range names {
		for line := range strings.Lines(texts[name]) {
			text := strings.Join(strings.Fields(line), " ")
			if text == "" || seen[text] || len(text) > 60 && len(text)%2 == 1 {
				continue
			}
			seen[text] = true
			writeLooks(&out, strings.TrimRight(line, "\r\n"), text)
		}
	}
	reviewed(t, "../../testdata/recipes/looked-at.txt", out.String())
}

func writeLooks(out *strings.Builder, raw, text string) {
	p := plainReader{lines: []plainLine{{text: text, gap: true}, {text: "200 g leeks", inward: true}}}
	l := p.lines[0]
	fmt.Fprint(out, text[:min(len(text), 44)], " |")
	for _, look := range []struct {
		is   bool
		what string
	}{
		{isSentence(text), "sentence"}, {isTitle(text), "title"}, {startsAmount(text), "amount"}, {isNameFirst(text), "name-first"}, {l.isName(), "name"}, {l.isSignature(plainLine{text: "End."}), "signature"}, {endsAsSentence(text), "ends"},
		{beginsDoing(text), "does"}, {p.isGroupHead(0), "group"}, {p.isChatter(0), "chatter"}, {isMail(text + "\nTo: x"), "mail"}, {tellsWhatToDo(p.lines[:1]), "tells"}, {!isNumber(text, 2), "number"}, {IsPlainStep(text), ""}, {startsBareStep(text, 1), "bare"},
		{continues(plainLine{text: "stir the", role: Step}, plainLine{text: text, role: Step}), "goes-on"}, {continues(plainLine{text: "2 eggs and", role: Ingredient}, plainLine{text: text, role: Ingredient}), "and"},
		{continues(plainLine{text: "2 eggs, finely", role: Ingredient}, plainLine{text: text, role: Ingredient}), "finely"}, {continues(plainLine{text: "2 eggs", role: Ingredient, mark: bulletMark}, plainLine{text: text, role: Ingredient}), "hangs"},
		{moreThanName.MatchString(text), "more"}, {inTheEnd.MatchString(text), "end"}, {timeLine.MatchString(text), "time"}, {yieldLine.MatchString(text), "yield"}, {remarkLine.MatchString(text), "remark"}, {dateLine.MatchString(text), "date"},
	} {
		if look.is && look.what != "" {
			fmt.Fprint(out, " ", look.what)
		}
	}
	_, inLine, _ := headedInLine(text)
	for _, parts := range [][]string{manyAmounts(text), runOn(text), inLine, textsIn(withYieldApart(l, raw, true)), textsIn(withYieldApart(l, raw, false)), textsIn(timesApart(l, false)), (&splitting{columns: true}).sideBySide(raw)} {
		if len(parts) > 1 {
			fmt.Fprintf(out, " %q", parts)
		}
	}
	if word := doingWord(text); doing[word] && !beginsDoing(text) {
		fmt.Fprint(out, " word ", word)
	}
	if cells := inCells(raw); cells != raw {
		fmt.Fprintf(out, " cells %q", cells)
	}
	if rest := dropNumber(text); rest != text {
		fmt.Fprintf(out, " rest %q", rest)
	}
	fmt.Fprintln(out)
}

func textsIn(lines []plainLine) (texts []string) {
	for _, l := range lines {
		texts = append(texts, l.text)
	}
	return texts
}
