package page

import (
	"flag"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// `go test ./cmd/trencher/page -update` writes the golden files anew; read each
// difference.
var update = flag.Bool("update", false, "write the golden files anew")

// A stop is a screen that is looked at, or a form that is sent.
type stop struct {
	to   string
	form url.Values // nil: it is looked at
}

func look(to string) stop { return stop{to: to} }

// fill is a form in the words of a query.
func fill(to, words string) stop {
	form, err := url.ParseQuery(words)
	if err != nil {
		panic(words)
	}
	form.Set("once", to+words)
	return stop{to, form}
}

var (
	onceTokens = regexp.MustCompile(`(name="once" value=")[^"]*`)
	editions   = regexp.MustCompile(`(/(?:style|cook|weigh|away))-[0-9a-f]+\.`)
	answersAt  = regexp.MustCompile(`answer=[0-9a-zA-Z_-]+`)
)

// Every screen of an afternoon, one after another, and every form sent well and ill:
// whoever changes a screen sees here what changed.
func TestScreensInFull(t *testing.T) {
	for name, stops := range map[string][]stop{
		"an-empty-plot": {
			look("/"), look("/weigh"), look("/share"), look("/share?go=1"), look("/season"), look("/ready"), look("/season"), look("/steam"), look("/boil"), look("/keep"), look("/fridge"),
			look("/cook"), look("/dish"), look("/recipe"), look("/plant"), look("/reckoner"), look("/undo"), look("/carry"), look("/settle"), look("/hygiene"), look("/next"), look("/nowhere"),
		},
		"lifts": {
			fill("/weigh", "planting=tub-3&unit=kg&bowl-1-full=1.46&bowl-1-empty=0.31&bowl-2-full=0,98&bowl-2-empty=0.31&grade-1-weight=0.82&grade-1-low=20&grade-1-high=45&grade-1-count=12&grade-1-condition=scabby&grade-2-weight=60 g&grade-2-condition=green"),
			fill("/weigh", "planting=tub-3&unit=kg&bowl-1-full=1.46&bowl-1-empty=2&grade-1-weight=9"),
			fill("/weigh", "planting=nowhere&unit=kg&bowl-1-full=much&at=soon"),
			fill("/weigh", "planting=bed-1&unit=g&bowl-1-full=900&bowl-1-empty=310&more=1"),
			fill("/weigh", "planting=bed-1&unit=g&bowl-1-full=900&bowl-1-empty=310&sum=1"),
			fill("/weigh", "planting=bed-1&unit=lb&bowl-1-full=2&bowl-1-empty=0.5&at=2031-07-12T10:00"),
			fill("/weigh", "planting=bed-1&unit=kg&bowl-1-full=90"),
			look("/"), look("/weigh"), look("/take?lot=tub-3/20-45-scabby"), look("/take"),
			fill("/take", "lot=tub-3/20-45-scabby&to=use&weight=0.1&unit=kg&detail=crushed"), fill("/take", "lot=tub-3/20-45-scabby&to=give&weight=50&unit=g&detail=neighbours"),
			fill("/take", "lot=tub-3/20-45-scabby&to=store&weight=100&unit=g&detail=shed"), fill("/take", "lot=tub-3/20-45-scabby&to=compost&weight=9&unit=kg"), fill("/take", "lot=nowhere&to=use&weight=1&unit=g"),
			fill("/take", "lot=tub-3/20-45-scabby&to=reweighed&weight=560&unit=g"), fill("/take", "lot=tub-3/20-45-scabby&to=reweighed&weight=100&unit=g"), look("/"), look("/ready"), look("/season"), look("/season"),
			fill("/undo", "entry=journal/2031/none.yaml"),
		},
		"a-meal": {
			fill("/weigh", "planting=tub-3&unit=kg&bowl-1-full=2.46&bowl-1-empty=0.31"),
			look("/share"), look("/share?go=1&dish=Crushed+potatoes+with+lovage&dish=Cold+potato+salad+with+radish+and+onions&serve=18:30"), look("/share?go=1&dish=Crushed+potatoes+with+lovage&dish=Cold+potato+salad+with+radish+and+onions&serve=25:00&air=hot&for=many"), look("/share?go=1&dish=Crushed+potatoes+with+lovage&dish=Cold+potato+salad+with+radish+and+onions&for=2+adults,+1+child&dishes=1&start=now"), look("/share?go=1&dish=Crushed+potatoes+with+lovage&dish=Cold+potato+salad+with+radish+and+onions&guests=2+adults%0A1+adult+no+milk%0A1+child+under+5&sides=1"),
			look("/share?go=1&dish=Crushed+potatoes+with+lovage&dish=Cold+potato+salad+with+radish+and+onions&limits=butter%3D15+g&keep=500+g+potato"), look("/share/calendar?go=1&dish=Crushed+potatoes+with+lovage&serve=18:30"),
			fill("/share", "go=1&serve=18:30&dish=Crushed potatoes with lovage"), look("/"), look("/cook"), fill("/cook", "step=s1&says=done"), fill("/cook", "step=s99&says=done"), look("/cook"),
			look("/fridge"), fill("/fridge", "name=Crushed potatoes with lovage&event=cooked&amount=4"), fill("/fridge", "name=Crushed potatoes with lovage&event=chilled"), fill("/fridge", "name=Crushed potatoes with lovage&event=eaten&amount=9"),
			fill("/fridge", "name=Crushed potatoes with lovage&event=eaten&amount=1"), look("/season"), fill("/fridge", "name=soup&event=cooked"), fill("/fridge", "name=soup&event=out&until=soon"), look("/fridge"), look("/dish?name=Crushed+potatoes+with+lovage"), look("/dish?name=Crushed+potatoes+with+lovage&portions=3"), look("/dish?name=Crushed+potatoes+with+lovage&portions=none"),
		},
		"weeks-later": {
			fill("/weigh", "planting=tub-3&unit=kg&bowl-1-full=3&at=2031-06-20T10:00"), fill("/weigh", "planting=bed-1&unit=kg&bowl-1-full=2&at=2031-06-20T11:00"),
			fill("/take", "lot=tub-3/ungraded-sound&to=use&weight=0.5&unit=kg&detail=Crushed potatoes with lovage&at=2031-06-22T12:00"),
			fill("/take", "lot=tub-3/ungraded-sound&to=use&weight=0.5&unit=kg&detail=Crushed potatoes with lovage&at=2031-06-29T12:00"),
			fill("/take", "lot=tub-3/ungraded-sound&to=use&weight=0.4&unit=kg&at=2031-07-06T12:00"),
			fill("/take", "lot=bed-1/ungraded-sound&to=store&weight=1&unit=kg&detail=cellar&at=2031-06-21T12:00"),
			fill("/weigh", "planting=tub-3&unit=kg&bowl-1-full=1.5"), look("/"), look("/season"), look("/season?year=2030"), look("/season?year=then"), look("/ready"), look("/take"), look("/next"), look("/next?year=2033"), look("/next?year=then"), look("/next?for=many"),
			fill("/fridge", "name=Old soup&event=cooked&food=soup&amount=2 l&at=2031-07-01T12:00"), fill("/fridge", "name=Crushed potatoes with lovage&event=cooked&amount=4&at=2031-07-12T13:00"),
			fill("/fridge", "name=Crushed potatoes with lovage&event=chilled&at=2031-07-12T14:00"), look("/fridge"), fill("/fridge", "name=Old soup&event=danced"), fill("/fridge", "event=eaten&replaces=journal/2031/none.yaml"),
			fill("/steam", "crop=potato, waxy&cut=cube&minutes=9.5&said=tender"), fill("/steam", "crop=potato, waxy&cut=cube&size=25&minutes=&said=tender"), fill("/phones", "all=1"),
			look("/boil?crop=carrot&cut=cube&size=wide"), look("/boil?crop=carrot&cut=cube&size=10&until=charred&load=heavy"), look("/boil?way=blanch&crop=carrot&cut=cube&size=0"), look("/boil?crop=carrot&cut=cube"),
			look("/keep?food=mash&cooked=then"), look("/keep?food=mash&cooked=2031-07-12T13:00&chilled=2031-07-12T14:00"), look("/keep?food=mash&chilled=2031-07-12T14:00"), look("/keep?food=boots"),
			fill("/recipe", "text=Beet soup%0A%0AServes 4%0A%0AIngredients%0A%0A500 g beetroot%0ATo serve: 2 lemons%0A%0AMethod%0A%0A1. Boil the beetroot for 40 minutes.&as-6=other"),
			fill("/recipe", "portions=0&served=tepid&text=Beet soup"), fill("/recipe", ""),
			fill("/plant", "called=bed-9&crop=carrot&in=bed&size=2&how=sown&planted=2031-04-12&count=40"), fill("/plant", "called=tub-9&crop=potato&in=tub&size=30&class=second early"), fill("/plant", "called=tub-8&crop=&in=shed&how=thrown&count=4x"), fill("/plant", "crop=leek&called="), look("/plant"),
			look("/share?go=1"), look("/share?tick=none"), look("/dish?name=Boots"), look("/dish?name=Crushed+potatoes+with+lovage&portions=3&serve=25:00"), look("/dish?name=Crushed+potatoes+with+lovage&lifted=1+kg&serve=18:30"),
		},
		"questions": {
			look("/steam?crop=potato,+waxy&cut=cube&size=25"), look("/steam?crop=potato,+waxy&cut=cube&size=25&load=1+kg&until=soft"), look("/steam?crop=boots&cut=star"), fill("/steam", "crop=potato, waxy&cut=cube&size=25&minutes=9.5&said=tender"), fill("/steam", "crop=potato, waxy&cut=cube&size=25&minutes=none&said=perhaps"),
			look("/boil?crop=potato,+waxy&cut=cube&size=25&load=1+kg"), look("/boil?crop=carrot&cut=cube&size=10&way=blanch"), look("/boil?crop=boots"), look("/keep?food=mash"), look("/keep?food=mash&cooked=2031-07-12T13:00"), look("/keep?food="),
			fill("/plant", "called=bed-9&crop=carrot&bed=2 m x 1 m&planted=2031-04-12"), fill("/plant", "called=bed 9&crop=boots&bed=2 kg"), look("/plant"),
			fill("/recipe", "text=Beet soup%0A%0AServes 4%0A%0AIngredients%0A%0A500 g beetroot%0A%0AMethod%0A%0A1. Boil the beetroot for 40 minutes."), fill("/recipe", "text=what"), fill("/recipe", "keep=1&served=hot&text=Beet soup%0A%0AServes 4%0A%0AIngredients%0A%0A500 g beetroot%0A%0AMethod%0A%0A1. Boil the beetroot for 40 minutes."),
			look("/next?eat=potato,+3+a+week,+26+weeks&for=2+adults"), look("/next?eat=boots"), look("/carry"), look("/reckoner?dish=Crushed+potatoes+with+lovage"),
		},
	} {
		t.Run(name, func(t *testing.T) {
			g := newGardener(t)
			var out strings.Builder
			for _, one := range stops {
				w := g.get(one.to)
				if one.form != nil {
					w = g.post(one.to, one.form)
				}
				fmt.Fprintf(&out, "===== %s %s\n%d %s %s\n", one.to, one.form.Encode(), w.Code, w.Header().Get("Location"), w.Header().Get("Refresh"))
				body := w.Body.String()
				if _, after, ok := strings.Cut(body, "<main"); ok {
					body = "<main" + after
				}
				out.WriteString(strings.TrimSpace(body) + "\n")
			}
			text := onceTokens.ReplaceAllString(out.String(), "${1}…")
			text = answersAt.ReplaceAllString(editions.ReplaceAllString(text, "$1-…."), "answer=…")
			text = strings.ReplaceAll(text, g.dir, "PLOT")
			file := filepath.Join("testdata", "screens", name+".txt")
			if *update {
				require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
				require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
			}
			want, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, string(want), text)
		})
	}
}
