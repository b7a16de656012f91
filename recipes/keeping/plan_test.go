package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A plan for a table at 18:30: a salad cooked at 15:40 and a hot dish cooked
// at 18:15.
func planFacts(t *testing.T) PlanFacts {
	at := func(clock string) time.Time { return clockOf(t, "2031-07-12T"+clock) }
	return PlanFacts{
		TableFrom: at("18:30"), Air: Celsius(24), Fridge: Celsius(4),
		Dishes: []PlanDish{
			{Name: "Salad", Food: "dressed-salad", CookedAt: at("15:40"), DressedAt: at("16:40"), ChilledAt: at("16:45"), Heaped: 5 * time.Hour, Spread: 62 * time.Minute},
			{Name: "Crushed", Food: "boiled-potatoes", CookedAt: at("18:15")},
		},
	}
}

func says(notes []Note) []string {
	var all []string
	for _, n := range notes {
		all = append(all, n.Says)
	}
	return all
}

func TestPlanNotesTellClockTimes(t *testing.T) {
	notes, err := PlanNotes(planFacts(t))
	require.NoError(t, err)
	assert.Equal(t, []string{
		"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h.",
		"Salad: dress it cold, at 16:40, and back into the fridge until serving.",
		"Salad: on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
		"Salad: what is left and went back in time is eaten by Mon 15:40.",
		"Salad: the dressing buys no time out of the fridge.",
		"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.",
		"Crushed: what is left and went back in time is eaten by Mon 18:15, heated up once, to 75 °C in the middle, steaming all through.",
	}, says(notes))
	assert.Equal(t, "uk-cool-home-2h", notes[0].Rule)
	assert.Equal(t, clockOf(t, "2031-07-12T17:40"), notes[0].At)
}
