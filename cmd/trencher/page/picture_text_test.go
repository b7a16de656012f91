package page

import (
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/webdriver"
)

// picturesRead looks at the texts of all pictures of a screen with letters of a size:
// how high they are, and what of them is cut off or lies on another.
const picturesRead = `
document.documentElement.style.fontSize = arguments[0];
for (const each of document.querySelectorAll("details")) each.open = true;
const out = {Texts: 0, High: 0, Cut: [], Over: [], Wide: document.documentElement.scrollWidth - innerWidth};
for (const svg of document.querySelectorAll("main svg")) {
  if (svg.parentElement.closest("svg")) continue;
  const frame = svg.parentElement, room = frame.getBoundingClientRect(), seen = [];
  for (const text of svg.querySelectorAll("text")) {
    const at = text.getBoundingClientRect();
    if (!at.width) continue;
    out.Texts++;
    out.High += at.height;
    const left = at.left - room.left + frame.scrollLeft;
    if (left < -1 || left + at.width > Math.max(frame.scrollWidth, room.width) + 1 || at.top < room.top - 1 || at.bottom > room.bottom + 1) out.Cut.push(text.textContent);
    for (const [other, says] of seen) {
      if (Math.min(at.right, other.right) - Math.max(at.left, other.left) > 1 && Math.min(at.bottom, other.bottom) - Math.max(at.top, other.top) > 4) out.Over.push(says + " / " + text.textContent);
    }
    seen.push([at, text.textContent]);
  }
}
return out;`

// The text of every picture grows with the reader's letters; at twice their size none
// is cut off and none lies on another.
func TestTextInPicturesGrows(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, webdriver.Look{Width: 390, Height: 844, Scripts: true})
	g := newGardener(t)
	require.Equal(t, http.StatusSeeOther, g.post("/weigh", aLift()).Code)
	require.Equal(t, http.StatusSeeOther, g.post("/take", url.Values{"once": {"t"}, "lot": {"tub-3/20-45-sound"}, "to": {"use"}, "weight": {"0.1"}, "unit": {"kg"}}).Code)
	kitchen, err := os.ReadFile(filepath.Join(g.dir, "kitchen.yaml"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(g.dir, "kitchen.yaml"), append(kitchen, "household: 2 adults\n"...), 0o644))
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: g.dir}})
	for screen, target := range map[string]string{
		"strip": "/share?go=1&serve=18:30&dish=" + url.QueryEscape(crushed), "curve": "/steam?size=25", "yields": "/season", "next": "/next?eat=potato%2C+3+a+week%2C+26+weeks",
	} {
		t.Run(screen, func(t *testing.T) {
			type looked struct {
				Texts, High, Wide float64
				Cut, Over         []string
			}
			look := func(size string) (got looked) {
				require.NoError(t, b.Try("POST", "/execute/sync", map[string]any{"script": picturesRead, "args": []any{size}}, &got))
				return got
			}
			b.Open(address + target)
			usual := look("100%")
			require.Greater(t, usual.Texts, 5.0)
			large := look("200%")
			b.Picture("picture-" + screen + "-large")
			assert.InDelta(t, 2, large.High/usual.High, 0.35, "the text grows")
			for _, one := range []looked{usual, large} {
				assert.Empty(t, one.Cut)
				assert.Empty(t, one.Over)
				assert.LessOrEqual(t, one.Wide, 0.0, "the screen itself is not wider than the phone")
			}
		})
	}
}
