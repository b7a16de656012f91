package render

import (
	"io"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/keeping"
	"trencher/recipes/meal"
)

type verdictJSON struct {
	Batch     string     `json:"batch,omitempty"`
	Dish      string     `json:"dish,omitempty"`
	Food      string     `json:"food,omitempty"`
	CookedAt  *string    `json:"cooked_at,omitempty"`
	Verdict   string     `json:"verdict"`
	Until     *string    `json:"until"`
	KeepBy    *string    `json:"keep_by,omitempty"`
	Since     *string    `json:"since,omitempty"`
	Missing   string     `json:"missing,omitempty"`
	Authority string     `json:"authority"`
	Rules     []string   `json:"rules"`
	Says      []string   `json:"says"`
	Why       []whyJSON  `json:"why,omitempty"`
	Sources   []ruleJSON `json:"sources,omitempty"`
}

type whyJSON struct {
	Says  string   `json:"says"`
	Rules []string `json:"rules"`
	Ours  bool     `json:"ours"`
}

type ruleJSON struct {
	Rule    string `json:"rule"`
	Says    string `json:"says"`
	Source  string `json:"source"`
	KnownBy string `json:"known_by"`
	Note    string `json:"note,omitempty"`
}

type guideJSON struct {
	Food     string        `json:"food"`
	Name     string        `json:"name"`
	Short    string        `json:"short"`
	Guidance []sectionJSON `json:"guidance"`
	Rules    []string      `json:"rules"`
	Says     []string      `json:"says"`
	Sources  []ruleJSON    `json:"sources,omitempty"`
}

type sectionJSON struct {
	About string    `json:"about"`
	Lines []whyJSON `json:"lines"`
}

// VerdictJSON writes the verdict on a batch for scripts.
func VerdictJSON(w io.Writer, v keeping.Verdict, why bool) error {
	return writeJSON(w, verdictOf(v, why))
}

func verdictOf(v keeping.Verdict, why bool) verdictJSON {
	out := verdictJSON{
		Food: v.Food.ID, Verdict: string(v.Kind), Until: moment(v.Until), KeepBy: moment(v.KeepBy), Since: moment(v.Since),
		Missing: string(v.Missing), Authority: string(v.Authority), Rules: append([]string{}, v.Rules()...), Says: v.Says(),
	}
	if why {
		out.Why, out.Sources = each(v.Reasons, whyOf), sourcesOf(v.Rules())
	}
	return out
}

func whyOf(r keeping.Reason) whyJSON {
	return whyJSON{Says: r.Says, Rules: append([]string{}, r.Rules...), Ours: r.Ours}
}

func sourcesOf(ids []string) []ruleJSON {
	return each(ids, func(id string) ruleJSON {
		rule, _ := keeping.LookupRule(id)
		return ruleJSON{Rule: id, Says: rule.Says, Source: rule.Provenance.String(), KnownBy: rule.KnownBy, Note: rule.Note}
	})
}

// GuideJSON writes the guidance on a food for scripts.
func GuideJSON(w io.Writer, g keeping.Guidance, why bool) error {
	out := guideJSON{
		Food: g.Food.ID, Name: g.Food.Name, Short: g.Short, Rules: append([]string{}, g.Rules()...),
		Guidance: each(g.Sections, func(s keeping.Section) sectionJSON {
			return sectionJSON{About: s.Name, Lines: each(s.Lines, whyOf)}
		}),
		Says: append([]string{g.Short}, g.Cautions...),
	}
	if why {
		out.Sources = sourcesOf(g.Rules())
	}
	return writeJSON(w, out)
}

// BatchesJSON writes the cooked batches for scripts, the most urgent first.
func BatchesJSON(w io.Writer, a ask.BatchesAnswer, why bool) error {
	return writeJSON(w, each(a.Batches, func(b meal.KeptBatch) verdictJSON { return keptOf(b, why) }))
}

func keptOf(b meal.KeptBatch, why bool) verdictJSON {
	out := verdictOf(b.Verdict, why)
	out.Batch, out.Dish, out.CookedAt = b.Name, b.Dish, moment(b.CookedAt)
	return out
}

// BatchEventsJSON writes the entries as logged and the batches' verdicts for
// scripts: one by itself, several as a list.
func BatchEventsJSON(w io.Writer, all meal.LoggedEvents) error {
	if len(all) == 1 {
		return writeJSON(w, eventOf(all[0]))
	}
	return writeJSON(w, each(all, eventOf))
}

type eventJSON struct {
	Kind    string       `json:"kind"`
	Batch   string       `json:"batch"`
	At      *string      `json:"at"`
	Amount  string       `json:"amount,omitempty"`
	Plan    string       `json:"plan,omitempty"`
	File    string       `json:"file"`
	Verdict *verdictJSON `json:"keep,omitempty"`
}

func eventOf(a meal.LoggedEvent) eventJSON {
	out := eventJSON{Kind: a.Event.Event, Batch: a.Event.Name, At: moment(a.Event.At), Plan: a.Event.Plan, File: a.Event.File}
	if a.Event.Amount.IsValid() {
		out.Amount = a.Event.Amount.String()
	}
	if a.Batch != nil {
		kept := keptOf(*a.Batch, false)
		out.Verdict = &kept
	}
	return out
}
