package page

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

// As one types the net stands there, and it is what "Add up" says, which needs no
// script; what the script cannot read it leaves alone.
func TestNetAsOneTypes(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Height: 844, Scripts: true})
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: newPlot(t)}})
	random := rand.New(rand.NewPCG(19, 2))
	const says = "[data-net]"
	tries := 1
	if os.Getenv("TRENCHER_LONG") != "" {
		tries = 30
	}
	for range tries {
		unit := weightUnits[random.IntN(len(weightUnits))]
		b.Open(address + "/weigh")
		b.Choose("#unit", unit)
		for row := 1; row <= 1+random.IntN(3); row++ {
			empty := random.IntN(900)
			full := empty + 1 + random.IntN(4000)
			b.Fill(fmt.Sprintf("#bowl-%d-full", row), fmt.Sprintf("%d.%03d", full/1000, full%1000))
			if random.IntN(4) > 0 {
				b.Fill(fmt.Sprintf("#bowl-%d-empty", row), fmt.Sprintf("%d.%d", empty/1000, empty%1000/100))
			}
		}
		typed := b.Text(says)
		require.Contains(t, typed, " net so far")
		b.Follow("[name=net]")
		assert.Equal(t, b.Text(says), typed, unit)
	}
	b.Open(address + "/weigh")
	for typed, net := range map[string]string{"a lot": "", "1 lb 3 oz": "", "1,46": "1.46 kg net so far", "1,460": "", "0": ""} {
		b.Fill("#bowl-1-full", typed)
		assert.Equal(t, net, b.Text(says), typed)
	}
}
