package saved

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"trencher/units"
)

// plainLine is a line on its way to a role.
type plainLine struct {
	text    string
	number  int  // in the file
	gap     bool // an empty line stands before it
	inward  bool // it begins further in than the margin
	mark    mark // what stood before its first word
	role    Role
	settled bool
}

// mark is what stands before a line in a list.
type mark uint8

const (
	noMark mark = iota
	bulletMark
	numberMark
)

type plainReader struct {
	lines []plainLine
	name  string // what names it from outside: an e-mail's subject
	weak  bool   // that name gives way to the text's own
}

var (
	bullets    = regexp.MustCompile(`^[*•·▢☐▪◦‣●○–—-]\s*|^\[[ xX]?\]\s*`)
	bareStep   = regexp.MustCompile(`^\d{1,2}\s+`)
	numbers    = regexp.MustCompile(`(?i)^(?:step\s*)?(\d{1,2})\s*(?:[.):]|\s-)\s+`)
	stepWord   = regexp.MustCompile(`(?i)^step\s*\d{1,2}\s*[.):-]?\s*`)
	emphasis   = regexp.MustCompile(`^[*_]([^\s*_][^*_]*)[*_]$`)
	quoting    = regexp.MustCompile(`^(?:>\s?)+`)
	decoration = regexp.MustCompile(`^[#=*_~\s-]+|[#=*_~\s-]+$`)
)

// chatStamp stands before each line of a saved conversation: its moment, and who
// wrote it.
var chatStamp = regexp.MustCompile(`^\[?\d{1,4}[./-]\d{1,2}[./-]\d{1,4},? +\d{1,2}[:.]\d\d(?:[:.]\d\d)?(?: ?[AaPp]\.?[Mm]\.?)?(?:\]| -) *[^:]{1,40}: *`)

// plainLines splits a text, dropping what only lays it out.
func plainLines(text string) []plainLine {
	var lines []plainLine
	gap := false
	number := 0
	signed := 0 // where a signature begins
	steps := 0  // the last step that has a number and no dot
	for raw := range strings.SplitSeq(text, "\n") {
		number++
		if strings.TrimRight(raw, " \r") == "--" {
			signed = len(lines)
		}
		text := strings.NewReplacer("**", "", "__", "").Replace(quoting.ReplaceAllString(raw, ""))
		text = chatStamp.ReplaceAllString(text, "")
		wide := text
		inward := strings.HasPrefix(text, "  ") || strings.HasPrefix(text, "\t")
		text = strings.Join(strings.Fields(strings.Map(printable, text)), " ")
		if strings.Trim(text, "=-_*~#· ") == "" {
			gap = true
			continue
		}
		l := plainLine{text: text, number: number, gap: gap, inward: inward}
		if inner := emphasis.FindStringSubmatch(text); inner != nil {
			text = inner[1]
			l.text = text
		}
		if strings.HasPrefix(text, "#") {
			l.text, l.gap = strings.TrimSpace(decoration.ReplaceAllString(text, "")), true
		} else if found := bullets.FindString(text); found != "" && !strings.HasPrefix(text, "-1") {
			l.text, l.mark = strings.TrimSpace(text[len(found):]), bulletMark
		} else if numbers.MatchString(text) || stepWord.MatchString(text) {
			l.mark = numberMark
		}
		if l.mark == noMark && startsBareStep(l.text, steps+1) {
			l.text, l.mark = bareStep.ReplaceAllString(l.text, ""), numberMark
			steps++
		}
		if l.text == "" {
			continue
		}
		lines = append(lines, withYieldApart(l, wide)...)
		gap = false
	}
	if signed > 0 && len(lines)-signed <= longestSignature {
		for i := range lines[signed:] {
			lines[signed+i].settled = true // a note
		}
	}
	return lines
}

// longestSignature is how many lines may stand below "--" at the end of a message.
const longestSignature = 6

var bareNumber = regexp.MustCompile(`^(\d{1,2})\s+(\pL+)\b`)

// startsBareStep tells the next of steps that are numbered without a dot: "1 Boil
// the beetroot." A word that counts something is no step: "1 slice bread".
func startsBareStep(text string, next int) bool {
	m := bareNumber.FindStringSubmatch(text)
	if m == nil || m[1] != strconv.Itoa(next) || !doing[strings.ToLower(m[2])] || !unicode.IsUpper([]rune(m[2])[0]) || len(strings.Fields(text)) < 4 {
		return false
	}
	_, err := units.ParseUnit(m[2], units.Metric)
	return err != nil
}

var yieldBehind = regexp.MustCompile(`(?i)^(\S.*?)(?:\s*[,;–—-]\s*|\s+)\(?((?:serves|feeds|makes|does|enough for|for|yields?)[:\s]+(?:about |approx\.? |up to )?(?:\d+(?:\s*(?:-|–|to)\s*\d+)?|two|three|four|five|six|eight|ten|twelve)(?:\s+(?:people|persons|portions?|servings?|helpings|as an? [\pL ]+))?|\d+(?:\s*(?:-|–|to)\s*\d+)? (?:portions?|servings?|people|helpings))\)?[.!]?$`)

// withYieldApart parts a title from the yield on its line: "Pea salad (serves 4)",
// or set apart by a wide gap.
func withYieldApart(l plainLine, wide string) []plainLine {
	m := yieldBehind.FindStringSubmatch(l.text)
	if m == nil || l.mark != noMark || len(l.text) > 100 || yieldLine.MatchString(l.text) || measureStart.MatchString(l.text) || strings.HasSuffix(m[1], ":") {
		return []plainLine{l}
	}
	bracket := strings.Contains(l.text, "("+m[2]+")")
	gapped := wideGap.MatchString(strings.TrimSpace(wide))
	if !bracket && !gapped && (doing[strings.ToLower(firstWord(l.text))] || strings.HasPrefix(strings.ToLower(m[2]), "for ")) {
		return []plainLine{l} // "Simmer for two", "Stock for 4"
	}
	first, second := l, l
	first.text, second.text = strings.TrimRight(m[1], " (,;"), m[2]
	second.gap = false
	return []plainLine{first, second}
}

var wideGap = regexp.MustCompile(`\S(?:\s{3,}|\t)\S`)

// dropNumber takes the number off a numbered step.
func dropNumber(text string) string {
	if rest := numbers.ReplaceAllString(text, ""); rest != "" && rest != text {
		return rest
	}
	if rest := stepWord.ReplaceAllString(text, ""); rest != "" {
		return rest
	}
	return text
}
