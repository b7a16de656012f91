package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/cmd/trencher/webdriver"
)

// The accessibility pass over one screen, by the success criteria of WCAG 2.2
// (W3C Recommendation) that can be measured: 1.1.1 text for pictures, 1.3.1
// and 3.3.2 labels, 1.4.3 contrast, 1.4.10 no sideways scroll, 2.4.1/2.4.2
// title and headings, 2.4.3 focus order, 2.5.5 targets of 44 pixels, 3.1.1
// language.
func assertAccessible(t *testing.T, b *webdriver.Browser, name string) {
	t.Helper()
	var faults []string
	b.Eval(accessScript, &faults)
	assert.Empty(t, faults, name)
	assert.Empty(t, b.Violations(), name)
}

const accessScript = `
const faults = [];
const say = (element, text) => faults.push(text + ': ' + element.outerHTML.slice(0, 120));
const shown = element => element.getClientRects().length > 0 && (!element.checkVisibility || element.checkVisibility());
if (!document.documentElement.lang) faults.push('no language');
if (!document.title.trim()) faults.push('no title');
if (document.querySelectorAll('h1').length !== 1) faults.push('not one h1');
let level = 1;
for (const heading of document.querySelectorAll('h1,h2,h3,h4')) {
  const now = Number(heading.tagName[1]);
  if (now > level + 1) say(heading, 'heading skips a level');
  level = now;
}
const root = document.documentElement;
if (root.scrollWidth > root.clientWidth) faults.push('scrolls sideways: ' + root.scrollWidth + ' > ' + root.clientWidth);
for (const box of document.querySelectorAll('input:not([type=hidden]),select,textarea')) {
  const words = [...(box.labels || [])].map(label => label.textContent.trim()).join('') || box.getAttribute('aria-label');
  if (!words) say(box, 'no label');
  for (const id of (box.getAttribute('aria-describedby') || '').split(' ').filter(Boolean))
    if (!document.getElementById(id)) say(box, 'describedby names nothing');
}
for (const picture of document.querySelectorAll('svg:not(svg svg)'))
  if (picture.getAttribute('aria-hidden') !== 'true' && !picture.getAttribute('aria-label')) say(picture, 'no words for the picture');
for (const one of document.querySelectorAll('[tabindex]:not([tabindex="0"])')) say(one, 'tabindex changes the focus order');
const ids = new Set();
for (const one of document.querySelectorAll('[id]')) { if (ids.has(one.id)) say(one, 'id stands twice'); ids.add(one.id); }
for (const link of document.querySelectorAll('a[href^="#"]'))
  if (link.hash.length > 1 && !document.getElementById(link.hash.slice(1))) say(link, 'leads nowhere');
for (const target of document.querySelectorAll('a,button,select,summary,input:not([type=hidden])')) {
  if (!shown(target)) continue;
  let box = target.getBoundingClientRect();
  if (target.type === 'checkbox' || target.type === 'radio') box = target.labels[0].getBoundingClientRect();
  if (box.height < 43.5 || box.width < 43.5) say(target, 'target of ' + box.width.toFixed(0) + ' x ' + box.height.toFixed(0));
}
const channels = colour => colour.match(/[\d.]+/g).map(Number);
const luminance = colour => channels(colour).slice(0, 3).map(v => v / 255)
  .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
  .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
const ground = element => {
  for (let one = element; one; one = one.parentElement) {
    const colour = getComputedStyle(one).backgroundColor, parts = channels(colour);
    if (parts.length === 3 || parts[3] > 0) return colour;
  }
  return 'rgb(255,255,255)';
};
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const element = walker.currentNode.parentElement;
  if (!walker.currentNode.textContent.trim() || !shown(element)) continue;
  if (element.closest('svg')) continue; // its colours are checked in the style sheet
  const a = luminance(getComputedStyle(element).color), b = luminance(ground(element));
  const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  if (ratio < 4.5) say(element, 'contrast ' + ratio.toFixed(2));
}
return faults;
`

// tabKey is the Tab key in the WebDriver standard's own code (section 17.4.2).
const tabKey = "\ue004"

// maxStops is how many parts a box for date and time may have.
const maxStops = 8

// assertFocusOrder walks the page with the Tab key: every box, button and link
// comes, and every drawing that may be wider than the screen, in reading order.
func assertFocusOrder(t *testing.T, b *webdriver.Browser, name string) {
	t.Helper()
	var count int
	b.Eval(`window.order = [...document.querySelectorAll('a[href],button,input:not([type=hidden]),select,summary,[tabindex="0"]')]
  .filter(e => e.getClientRects().length > 0 && (!e.checkVisibility || e.checkVisibility())); document.activeElement.blur(); return window.order.length`, &count)
	at := -1
	for i := range count {
		for range maxStops { // a box for date and time has several stops of its own
			b.Press(tabKey)
			b.Eval(`return window.order.indexOf(document.activeElement)`, &at)
			if at != i-1 {
				break
			}
		}
		if !assert.Equal(t, i, at, "%s: the Tab key's stop %d", name, i) {
			return
		}
	}
}

// The pass must see faults, or its silence means nothing.
func TestAccessibilityPassSeesFaults(t *testing.T) {
	needLive(t)
	b := webdriver.Start(t, webdriver.Look{Width: 360})
	b.Open(`data:text/html,<meta name=viewport content="width=device-width"><h3>x</h3><input><a href=%23none>y</a><p style="color:%23ddd">pale</p><div style="width:900px">wide</div><svg></svg><b tabindex=3></b>`)
	var faults []string
	b.Eval(accessScript, &faults)
	for _, want := range []string{"no language", "no title", "not one h1", "no label", "leads nowhere", "contrast", "sideways", "picture", "tabindex", "target", "skips"} {
		assert.Contains(t, join(faults), want)
	}
}

// The tests of the page run in browsers that run no script of a page.
func TestBrowserRunsNoScript(t *testing.T) {
	b := webdriver.Start(t, webdriver.Look{Width: 360})
	b.Open(`data:text/html,<title>off</title><script>document.title = 'on'</script>`)
	var title string
	b.Eval(`return document.title`, &title)
	assert.Equal(t, "off", title)
}

func join(texts []string) string {
	all := ""
	for _, text := range texts {
		all += text + "\n"
	}
	return all
}
