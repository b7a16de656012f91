package meal

import (
	"cmp"
	"time"

	"trencher/harvest"
	"trencher/recipes/keeping"
	"trencher/units"
)

// KeptBatch is one cooked batch of the journal with its verdict.
type KeptBatch struct {
	*harvest.Batch
	Verdict keeping.Verdict
}

// MoreUrgent orders batches by their verdicts as [keeping.MoreUrgent] does, then
// the one cooked first, then by name.
func MoreUrgent(a, b KeptBatch) int {
	return cmp.Or(keeping.MoreUrgent(a.Verdict, b.Verdict), a.CookedAt.Compare(b.CookedAt), cmp.Compare(a.Name, b.Name))
}

// Called are the batches whose names are, or begin with, a name as a person says it.
func Called(name string, batches []KeptBatch) (called []KeptBatch) {
	for _, i := range units.MatchAny(name, len(batches), func(i int) []string { return []string{batches[i].Name} }) {
		called = append(called, batches[i])
	}
	return called
}

// Judge judges the journal's batches at one moment, by one authority, in one
// household.
type Judge struct {
	Authority keeping.Authority
	Moment    time.Time
	Household keeping.Batch // the fridge and who eats; the rest is each batch's own
}

// history is a journal's batch as food safety looks at it.
func (j Judge) history(b *harvest.Batch) keeping.Batch {
	h := j.Household
	h.Food, h.Also, h.CookedAt, h.ChilledAt = b.Food, b.Also, b.CookedAt, b.ChilledAt
	if named, err := keeping.NameBatch(b.Name); err == nil && b.Food == keeping.AnythingElse && b.Dish == "" {
		h.Called = named.Called
	}
	h.Reheated, h.HeatedUp = b.Reheatings, b.State == harvest.HeatedUp
	for _, s := range b.Out {
		spell := keeping.Spell{From: s.From, To: s.To}
		if c, err := s.Air.Float64(units.Celsius); err == nil {
			spell.Air = keeping.Celsius(c)
		}
		h.Out = append(h.Out, spell)
	}
	return h
}

// Strictly judges a batch. Entries that cannot all be true are an error.
func (j Judge) Strictly(b *harvest.Batch) (KeptBatch, error) {
	v, err := keeping.Judge(j.history(b), j.Authority, j.Moment)
	return KeptBatch{b, v}, err
}

// Kept judges a batch as [keeping.JudgeLogged] does: entries that cannot all be
// true give Unknown, with what is wrong.
func (j Judge) Kept(b *harvest.Batch) KeptBatch {
	return KeptBatch{b, keeping.JudgeLogged(j.history(b), j.Authority, j.Moment)}
}
