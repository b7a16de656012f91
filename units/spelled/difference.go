package spelled

import (
	"fmt"
	"strings"
)

// mostDiffering is how many lines [Difference] shows.
const mostDiffering = 12

// Difference tells where an answer first leaves a golden file, in lines; "" where the
// two are one.
func Difference(want, got string) string {
	if want == got {
		return ""
	}
	wanted, had := strings.Split(want, "\n"), strings.Split(got, "\n")
	at := 0
	for at < len(wanted) && at < len(had) && wanted[at] == had[at] {
		at++
	}
	for at < len(wanted) && at < len(had) && wanted[len(wanted)-1] == had[len(had)-1] {
		wanted, had = wanted[:len(wanted)-1], had[:len(had)-1]
	}
	var text strings.Builder
	fmt.Fprintf(&text, "from line %d on:\n", at+1)
	show(&text, "- ", wanted[at:])
	show(&text, "+ ", had[at:])
	return text.String()
}

func show(text *strings.Builder, mark string, lines []string) {
	for i, line := range lines {
		if i == mostDiffering {
			fmt.Fprintf(text, "%s... and %d more\n", mark, len(lines)-i)
			return
		}
		fmt.Fprintf(text, "%s%s\n", mark, line)
	}
}
