package heat

import (
	"strings"

	"trencher/units"
	"trencher/units/strict"
)

const foundForms = "the minutes and what the knife said: \"9 min just-tender\", tender or soft"

// ParseFound reads what a knife test found, "9 min just-tender": minutes from
// steam at full flow. Its error is of the field found.
func ParseFound(found string) (minutes float64, until Doneness, err error) {
	text := strings.TrimSpace(found)
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return 0, 0, units.WrongField("found", found, "not a time and a doneness", foundForms)
	}
	if rest, two := strings.CutSuffix(text, " just tender"); two {
		text, at = rest+" just-tender", len(rest)
	}
	if until, err = ParseDoneness(text[at+1:]); err != nil {
		return 0, 0, units.WrongField("found", found, "not a doneness the knife can tell", foundForms)
	}
	if minutes, err = strict.FigureField("found", text[:at], units.Metric, units.Minute); err != nil {
		return 0, 0, err
	}
	if !(minutes >= 0.5 && minutes <= 180) {
		return 0, 0, units.WrongField("found", found, "not a steaming time", "minutes from steam at full flow, 0.5 to 180")
	}
	return minutes, until, nil
}
