package keeping

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A fact has one name for scripts and one for the field it is asked for in.
func TestFactsAndFields(t *testing.T) {
	for fact, field := range map[Fact]string{FactCooked: "cooked-at", FactHotUntil: "hot-until", FactPower: "power-off", FactAir: "air"} {
		assert.Equal(t, field, fact.Field())
		assert.Equal(t, fact, FactIn(field))
	}
	assert.Equal(t, "Cannot say without knowing when it was cooked (--cooked-at).", FactCooked.AskFor("--cooked-at"))
	assert.Equal(t, "Cannot say without knowing how hot it was kept (hot_at).", FactHotAt.AskFor("hot_at"))
	for fact, what := range asked {
		assert.NotEmpty(t, what, fact)
	}
}
