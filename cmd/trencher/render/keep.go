package render

import (
	"cmp"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
	"trencher/units"
)

// VerdictText tells what to do with a batch: the verdict first, then one
// sentence, what to mind besides, the reasons when asked for, the cautions.
func VerdictText(w io.Writer, v keeping.Verdict, why bool) error {
	var p page
	p.wrapped("", askedFor(v))
	p.wrapped("", v.Sentence)
	for _, warning := range v.Warnings {
		p.wrapped("- ", warning.Says)
	}
	if why {
		p.heading("Why")
		p.keepReasons(v.Reasons)
		p.heading("The rules")
		p.rules(v.Rules())
	}
	p.gap()
	if zone := zoneOfVerdict(v); zone != "" {
		p.wrapped("", zone)
	}
	p.cautions(v.Cautions)
	return p.writeTo(w)
}

// zoneOfVerdict says whose clock the times of a verdict are told by; "" where it
// tells none.
func zoneOfVerdict(v keeping.Verdict) string {
	if v.Until.IsZero() && v.Since.IsZero() {
		return ""
	}
	return "Times are " + zoneWords(v.At) + "."
}

// zoneWords names a zone by its letters and its distance from UTC: "BST (UTC+01:00)".
func zoneWords(at time.Time) string {
	name, offset := at.Zone()
	from := "UTC" + at.Format("-07:00")
	switch {
	case offset == 0 && name == "UTC":
		return name
	case strings.Trim(name, "+-0123456789") == "":
		return from
	}
	return name + " (" + from + ")"
}

// askedFor is the verdict's head; a missing fact is called by its flag.
func askedFor(v keeping.Verdict) string {
	if v.Kind == keeping.Unknown && !v.Referred {
		return v.Missing.AskFor("--" + v.Missing.Field())
	}
	return v.Head
}

func (p *page) keepReasons(reasons []keeping.Reason) {
	for _, r := range reasons {
		says := r.Says
		if r.Ours {
			says += " (our own choice; no source says it)"
		}
		p.wrapped("- ", says)
	}
}

// rules lists rules with their words, source and how each is known.
func (p *page) rules(ids []string) {
	for _, id := range ids {
		rule, ok := keeping.LookupRule(id)
		if !ok {
			continue
		}
		p.line("- " + id)
		p.wrapped("  ", rule.Says)
		p.wrapped("  ", "Source: "+rule.Provenance.String()+"; known by: "+rule.KnownBy+".")
		if rule.Note != "" {
			p.wrapped("  ", rule.Note)
		}
	}
}

// noteWithDishes is a note of a plan with the dishes it is about before it.
func noteWithDishes(n keeping.Note) string {
	if len(n.Dishes) == 0 {
		return n.Says
	}
	return strings.Join(n.Dishes, ", ") + ": " + n.Says
}

func (p *page) cautions(cautions []string) {
	p.wrapped("", strings.Join(cautions, " "))
}

// GuideText tells how a food keeps in general.
func GuideText(w io.Writer, g keeping.Guidance, why bool) error {
	var p page
	p.wrapped("", capital(g.Food.Name)+": "+uncapital(g.Short))
	for _, section := range g.Sections {
		p.heading(section.Name)
		for _, line := range section.Lines {
			p.wrapped("- ", line.Says)
		}
	}
	if g.Food.Ours != "" {
		p.gap()
		p.wrapped("", g.Food.Ours)
	}
	if why {
		p.heading("The rules")
		p.rules(g.Rules())
	}
	p.gap()
	p.cautions(g.Cautions)
	return p.writeTo(w)
}

// BatchTitle names a batch for a list: its name and when it was cooked.
func BatchTitle(b meal.KeptBatch) string {
	if b.CookedAt.IsZero() {
		return b.Name
	}
	return b.Name + ", cooked " + b.CookedAt.Format("Mon 2 Jan 15:04")
}

// BatchesText lists the cooked batches, the most urgent first.
func BatchesText(w io.Writer, a ask.BatchesAnswer, why bool) error {
	var p page
	if len(a.Batches) == 0 {
		p.wrapped("", "No cooked batch is in the journal. `trencher cooked NAME --food boiled-potatoes` logs one; `trencher keep --help` tells how to ask without a journal.")
	}
	for _, b := range a.Batches {
		p.gap()
		p.wrapped("", BatchTitle(b)+": "+uncapital(b.Verdict.Head))
		p.wrapped("  ", b.Verdict.Sentence)
		for _, warning := range b.Verdict.Warnings {
			p.wrapped("  - ", warning.Says)
		}
		if why {
			p.keepReasons(b.Verdict.Reasons)
		}
	}
	if rules := rulesBehind(a.Batches); why && len(rules) > 0 {
		p.heading("The rules")
		p.rules(rules)
	}
	if len(a.Batches) > 0 {
		p.gap()
		p.cautions(a.Batches[0].Verdict.Cautions)
	}
	return p.writeTo(w)
}

// rulesBehind gathers the rules behind several verdicts, each once.
func rulesBehind(batches []meal.KeptBatch) []string {
	var ids []string
	for _, b := range batches {
		for _, id := range b.Verdict.Rules() {
			if !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

// BatchEventsText tells what was logged and what to do with each batch now, with
// the cautions that go with a verdict.
func BatchEventsText(w io.Writer, all meal.LoggedEvents) error {
	var p page
	judged := false
	for _, a := range all {
		p.gap()
		p.wrapped("", joinNonEmpty(", ", a.Event.Name+": "+a.Event.Event+" at "+a.Event.At.Format("15:04"), batchAmount(a.Event)))
		if a.Batch != nil {
			p.wrapped("", a.Batch.Verdict.Head)
			p.wrapped("", a.Batch.Verdict.Sentence)
			for _, says := range unknownFoodWords(a.Batch.Verdict) {
				p.wrapped("", says)
			}
			judged = true
		}
		p.line("written to " + a.Event.File)
	}
	if judged {
		p.gap()
		for _, says := range generalCautions("trencher keep") {
			p.wrapped("  - ", says)
		}
	}
	return p.writeTo(w)
}

// unknownFoodWords are the warnings of a food that no rule knows.
func unknownFoodWords(v keeping.Verdict) (says []string) {
	if v.Food.ID != keeping.AnythingElse {
		return nil
	}
	for _, warning := range v.Warnings {
		says = append(says, warning.Says)
	}
	return says
}

// batchAmount is how much of a batch an event is about, in words.
func batchAmount(e *harvest.BatchEvent) string {
	if !e.Amount.IsValid() {
		return ""
	}
	return cmp.Or(countedPortions(e.Amount), e.Amount.String())
}

// countedPortions is a bare whole number in portions; "" for another amount.
func countedPortions(q units.Quantity) string {
	if n, err := q.Float64(units.Piece); err == nil && n == math.Trunc(n) {
		return portions(int(n))
	}
	return ""
}

func uncapital(text string) string {
	if len(text) > 1 && text[0] >= 'A' && text[0] <= 'Z' && (text[1] < 'A' || text[1] > 'Z') {
		return string(text[0]+'a'-'A') + text[1:]
	}
	return text
}

// moment writes a time for scripts; nil when there is none.
func moment(t time.Time) *string {
	if t.IsZero() {
		return nil
	}
	text := t.Format(time.RFC3339)
	return &text
}
