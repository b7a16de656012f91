package page

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// crushedAsked is a question for one dish.
var crushedAsked = url.Values{"go": {"1"}, "dish": {"Crushed potatoes with lovage"}, "serve": {"18:30"}}

// answerOf is an answer that must come though plans are going on; the time is a
// net under the test alone.
func answerOf(t *testing.T, handler http.Handler, r *http.Request) *httptest.ResponseRecorder {
	t.Helper()
	came := make(chan *httptest.ResponseRecorder, 1)
	go func() { came <- serve(handler, r) }()
	select {
	case w := <-came:
		return w
	case <-time.After(30 * time.Second):
		t.Fatalf("%s %s waits for a plan", r.Method, r.URL)
		return nil
	}
}

// While plans are going on that never seem to end, one of them to be written
// down, every other screen answers and every other form is written.
func TestASlowPlanStallsNobody(t *testing.T) {
	c := newCook(t)
	for range mostPlanning {
		c.page.planning <- struct{}{} // a plan that takes its time
	}
	recorded, cooked := make(chan int, 1), make(chan int, 1)
	record := url.Values{"once": {"slow"}, "go": {"1"}, "dish": crushedAsked["dish"]}
	go func() { recorded <- serve(c.handler, request("POST", "/share", record, nil)).Code }()
	go func() {
		cooked <- serve(c.handler, request("POST", "/cook", url.Values{"once": {"late"}, "says": {"five-late"}}, nil)).Code
	}()
	for _, lane := range []*sync.Mutex{&c.page.written.records, &c.page.written.cooks} { // until both are at work
		for lane.TryLock() {
			lane.Unlock()
			time.Sleep(time.Millisecond)
		}
	}
	for _, one := range jobs() {
		if one.Path != "/cook" && one.Path != "/reckoner" { // which are plans themselves
			assert.Equal(t, http.StatusOK, answerOf(t, c.handler, request("GET", one.Path+"?done=slow", nil, nil)).Code, one.Path)
		}
	}
	form := aLift()
	form.Set("once", "meanwhile")
	form.Set("bowl-1-full", "1.71")
	assert.Equal(t, http.StatusSeeOther, answerOf(t, c.handler, request("POST", "/weigh", form, nil)).Code)
	assert.Contains(t, answerOf(t, c.handler, request("GET", "/?done=meanwhile", nil, nil)).Body.String(), "2.07 kg from tub-3 written down.")
	assert.Equal(t, http.StatusSeeOther, answerOf(t, c.handler, request("POST", "/take",
		url.Values{"once": {"t"}, "lot": {"tub-3/20-45-sound"}, "to": {"give"}, "weight": {"10"}, "unit": {"g"}}, nil)).Code)
	for range mostPlanning {
		<-c.page.planning
	}
	assert.Equal(t, http.StatusSeeOther, <-recorded)
	assert.Equal(t, http.StatusSeeOther, <-cooked)
}

// Every plan waits for one of the few places, wherever it is asked for.
func TestFewPlansAtATime(t *testing.T) {
	c := newCook(t)
	for range mostPlanning {
		c.page.planning <- struct{}{}
	}
	asked := "?" + crushedAsked.Encode()
	requests := []*http.Request{
		request("GET", "/share"+asked, nil, nil), request("GET", "/share/sheet"+asked, nil, nil), request("GET", "/share/calendar"+asked, nil, nil),
		request("GET", "/dish?name=Crushed+potatoes+with+lovage&portions=6", nil, nil), request("GET", "/cook", nil, nil), request("GET", "/reckoner", nil, nil),
		request("POST", "/share", url.Values{"once": {"a"}, "go": {"1"}, "dish": crushedAsked["dish"]}, nil),
		request("POST", "/cook", url.Values{"once": {"b"}, "says": {"five-late"}}, nil),
	}
	type done struct {
		target string
		status int
	}
	came := make(chan done, len(requests))
	for _, r := range requests {
		go func() { came <- done{r.Method + " " + r.URL.Path, serve(c.handler, r).Code} }()
	}
	select {
	case early := <-came:
		t.Errorf("%s did not wait for its place", early.target)
	case <-time.After(200 * time.Millisecond): // who waits does so for good
	}
	for range mostPlanning {
		<-c.page.planning
	}
	for range requests {
		one := <-came
		assert.Less(t, one.status, http.StatusInternalServerError, one.target) // what is left once another was recorded may be nothing
	}
}

// slowQuestion puts twelve dishes into a plot and asks for all of them for many
// guests, which takes the planner a while.
func slowQuestion(t testing.TB, dir string) (target string) {
	t.Helper()
	asked := url.Values{"go": {"1"}, "sides": {"3"}, "guests": {"4 adults\n3 adults no milk\n2 adults vegan\n5 children no egg\n3 adults no onion\n2 adults no butter"}}
	for i := range 12 {
		dish := fmt.Sprintf("Dish %02d", i)
		text := strings.NewReplacer(crushed, dish, "720 g", fmt.Sprintf("%d g", 520+37*i)).Replace(plotFiles["dishes/crushed.yaml"])
		require.NoError(t, os.WriteFile(filepath.Join(dir, "dishes", fmt.Sprintf("slow-%02d.yaml", i)), []byte(text), 0o644))
		asked.Add("dish", dish)
	}
	return "/share?" + asked.Encode()
}

// BenchmarkSimpleScreenBesideSlowPlans tells how long the stock takes to come
// while two browsers ask for slow plans all the time: p99-ms is to be at most 300.
func BenchmarkSimpleScreenBesideSlowPlans(b *testing.B) {
	dir := newPlot(b)
	address := serveUntilEnd(b, Options{Where: ask.PlotRef{Dir: dir}})
	form := aLift()
	form.Set("bowl-3-full", "9.4")
	answer, err := http.PostForm(address+"/weigh", form)
	require.NoError(b, err)
	answer.Body.Close()
	question := address + slowQuestion(b, dir)
	ctx, stop := context.WithCancel(context.Background())
	plans := 0
	var planners sync.WaitGroup
	for n := range mostPlanning {
		planners.Go(func() {
			for ctx.Err() == nil {
				if r, err := http.NewRequestWithContext(ctx, "GET", question, nil); err == nil {
					if answer, err := http.DefaultClient.Do(r); err == nil {
						answer.Body.Close()
					}
				}
				if n == 0 {
					plans++
				}
			}
		})
	}
	var took []time.Duration
	for b.Loop() {
		from := time.Now()
		require.NoError(b, fetch(http.DefaultClient, address+"/"))
		took = append(took, time.Since(from))
	}
	stop()
	planners.Wait()
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100].Milliseconds()), "p99-ms")
	b.ReportMetric(float64(took[len(took)/2].Milliseconds()), "median-ms")
	b.ReportMetric(b.Elapsed().Seconds()/float64(max(plans, 1)), "s/plan")
}
