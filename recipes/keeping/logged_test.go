package keeping

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A history on paper that contradicts itself is no error but a verdict that
// cannot be given: whoever finds it in the fridge throws it out or finds out.
func TestJudgeLogged(t *testing.T) {
	now := time.Date(2031, 7, 12, 20, 0, 0, 0, time.UTC)
	at := func(hour int) time.Time { return time.Date(2031, 7, 12, hour, 0, 0, 0, time.UTC) }
	sound := Batch{Food: "mash", CookedAt: at(13), ChilledAt: at(14), Fridge: Celsius(4)}
	want, err := Judge(sound, Strictest, now)
	require.NoError(t, err)
	assert.Equal(t, want, JudgeLogged(sound, Strictest, now))
	for name, row := range map[string]struct {
		batch Batch
		fact  Fact
		says  string
	}{
		"out before it was chilled": {Batch{Food: "mash", CookedAt: at(13), ChilledAt: at(16), Out: []Spell{{From: at(15), To: at(17)}}}, FactOut, "begins before it was in the fridge"},
		"chilled before cooked":     {Batch{Food: "mash", CookedAt: at(13), ChilledAt: at(12)}, FactChilled, "comes before"},
		"to come":                   {Batch{Food: "mash", CookedAt: at(21)}, FactCooked, "lies in the future"},
		"no food known here":        {Batch{Food: "stones", CookedAt: at(13)}, FactFood, "stones"},
	} {
		v := JudgeLogged(row.batch, Strictest, now)
		assert.Equal(t, Unknown, v.Kind, name)
		assert.Equal(t, row.fact, v.Missing, name)
		assert.Equal(t, Strictest, v.Authority, name)
		assert.Contains(t, v.Head, "Cannot say: "+string(row.fact), name)
		assert.Contains(t, v.Head, row.says, name)
		assert.Contains(t, v.Sentence, "if you cannot find out, throw it out", name)
		assert.Equal(t, Cautions(false), v.Cautions, name)
	}
	old := Batch{Food: "mash", CookedAt: at(21), Vulnerable: true}
	assert.Equal(t, Cautions(true), JudgeLogged(old, Strictest, now).Cautions)
}

func TestMoreUrgent(t *testing.T) {
	at := func(hour int) time.Time { return time.Date(2031, 7, 12, hour, 0, 0, 0, time.UTC) }
	want := []Verdict{
		{Kind: Discard},
		{Kind: Discard, Until: at(9)},
		{Kind: Unknown},
		{Kind: FineNow, Until: at(10)},
		{Kind: EatBy, Until: at(11)},
		{Kind: ReheatFirst, Until: at(12)},
		{Kind: FineNow},
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortStableFunc(got, MoreUrgent)
	assert.Equal(t, want, got)
	assert.Zero(t, MoreUrgent(want[3], want[3]))
}

// Each rule that decides or warns is among the reasons, once, with its source.
func TestRuleReasons(t *testing.T) {
	now := time.Date(2031, 7, 12, 20, 0, 0, 0, time.UTC)
	v, err := Judge(Batch{Food: "mash", CookedAt: now.Add(-2 * time.Hour), ChilledAt: now.Add(-time.Hour), Fridge: Celsius(4)}, Strictest, now)
	require.NoError(t, err)
	reasons := v.RuleReasons()
	require.Len(t, reasons, len(v.Rules()))
	for i, id := range v.Rules() {
		assert.Equal(t, "rule "+id, reasons[i].Figure)
		assert.NotEmpty(t, reasons[i].Source)
		assert.NotContains(t, reasons[i].Value[len(reasons[i].Value)-1:], ".")
	}
}
