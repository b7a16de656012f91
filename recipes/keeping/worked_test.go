package keeping

import (
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// workedCase is one row of testdata/keeping/worked-cases.yaml.
type workedCase struct {
	Name      string
	Food      string
	CookedAt  string `yaml:"cooked_at"`
	ChilledAt string `yaml:"chilled_at"`
	HotAt     string `yaml:"hot_at"`
	HotUntil  string `yaml:"hot_until"`
	FrozenAt  string `yaml:"frozen_at"`
	ThawedAt  string `yaml:"thawed_at"`
	Out       []string
	PowerOff  []string `yaml:"power_off"`
	Probe     []string
	Freezer   Fill
	Ice       bool
	Eggs      Eggs
	Bitter    bool
	Box       Packs
	Air       string
	Fridge    string
	Eater     string
	Reheated  int
	Authority Authority
	Now       string
	Expect    Kind
	Until     string
	Missing   Fact
	Rules     []string
}

func (c workedCase) batch(t *testing.T) Batch {
	b := Batch{
		Food: c.Food, CookedAt: clockOf(t, c.CookedAt), ChilledAt: clockOf(t, c.ChilledAt),
		HotAt: celsius(t, c.HotAt), HotUntil: clockOf(t, c.HotUntil),
		FrozenAt: clockOf(t, c.FrozenAt), ThawedAt: clockOf(t, c.ThawedAt),
		Air: celsius(t, c.Air), Fridge: Celsius(4), Reheated: c.Reheated, Vulnerable: c.Eater == "vulnerable",
	}
	if c.Fridge != "" {
		b.Fridge = celsius(t, c.Fridge)
	}
	b.Freezer, b.Ice, b.Eggs, b.Bitter, b.Box = c.Freezer, c.Ice, c.Eggs, c.Bitter, c.Box
	for _, spell := range c.Out {
		from, to, _ := strings.Cut(spell, "..")
		b.Out = append(b.Out, Spell{From: clockOf(t, from), To: clockOf(t, to)})
	}
	for _, spell := range c.PowerOff {
		from, to, _ := strings.Cut(spell, "..")
		b.PowerOff = append(b.PowerOff, Spell{From: clockOf(t, from), To: clockOf(t, to)})
	}
	for _, reading := range c.Probe {
		at, c, _ := strings.Cut(reading, "=")
		b.Probes = append(b.Probes, Probe{At: clockOf(t, at), C: celsius(t, c).C})
	}
	return b
}

func TestWorkedCases(t *testing.T) {
	file, err := os.Open("../../testdata/keeping/worked-cases.yaml")
	require.NoError(t, err)
	defer file.Close()
	decoder := yaml.NewDecoder(file)
	decoder.KnownFields(true)
	var cases []workedCase
	require.NoError(t, decoder.Decode(&cases))
	require.Len(t, cases, 46)
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			v, err := Judge(c.batch(t), c.Authority, clockOf(t, c.Now))
			require.NoError(t, err)
			assert.Equal(t, c.Expect, v.Kind, v.Sentence)
			assert.Equal(t, c.Missing, v.Missing)
			assert.True(t, clockOf(t, c.Until).Equal(v.Until), "until %v", v.Until)
			for _, id := range c.Rules {
				assert.Contains(t, v.Rules(), id)
				rule, ok := LookupRule(id)
				require.True(t, ok)
				assert.NotEmpty(t, rule.Source)
			}
			assert.Subset(t, v.Says(), Cautions(c.Eater == "vulnerable"))
		})
	}
}

func clockOf(t *testing.T, text string) time.Time {
	t.Helper()
	if text == "" {
		return time.Time{}
	}
	m, err := time.ParseInLocation("2006-01-02T15:04", text, time.UTC)
	require.NoError(t, err)
	return m
}

func celsius(t *testing.T, text string) Temperature {
	t.Helper()
	if text == "" {
		return Temperature{}
	}
	c, err := strconv.ParseFloat(strings.TrimSuffix(text, " C"), 64)
	require.NoError(t, err)
	return Celsius(c)
}
