package page

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/harvest"
)

// Fifty people at the page at once, weighing in and looking at the stock,
// while the command line writes to the same plot: no error, and no entry is
// lost. A second, or twenty under TRENCHER_LONG=1.
func TestLoadLosesNothing(t *testing.T) {
	const clients = 50
	length := time.Second
	if os.Getenv("TRENCHER_LONG") == "1" {
		length = 20 * time.Second
	}
	address, dir := startPage(t)
	until := time.Now().Add(length)
	var lifts, looks, crumbs atomic.Int64
	var all sync.WaitGroup
	for client := range clients {
		all.Go(func() {
			browser := &http.Client{Timeout: maxWorking, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
			for round := 0; time.Now().Before(until); round++ {
				if err := weighOne(browser, address, client, round); err != nil {
					t.Error(err)
					return
				}
				lifts.Add(1)
				crumbs.Add(crumb(client, round))
				if round%8 == client%8 {
					if err := fetch(browser, address+"/"); err != nil {
						t.Error(err)
						return
					}
					looks.Add(1)
				}
			}
		})
	}
	all.Go(func() {
		for round := 0; time.Now().Before(until); round++ {
			_, err := ask.Lift(context.Background(), ask.LiftQuestion{PlotRef: ask.PlotRef{Dir: dir, Now: testNow},
				LiftWords: harvest.LiftWords{Planting: "bed-1", Weighings: []string{fullBowl(clients, round) + " g - 250 g"}}, At: momentOf(clients, round)})
			if err != nil {
				t.Error(err)
				return
			}
			lifts.Add(1)
			crumbs.Add(crumb(clients, round))
		}
	})
	all.Wait()
	t.Logf("%d lifts written and %d stocks read in %s", lifts.Load(), looks.Load(), length)
	require.NotZero(t, lifts.Load())
	assert.EqualValues(t, lifts.Load(), countEntries(t, dir), "every lift that was taken is a file")
	answer, err := ask.Tally(context.Background(), ask.PlotRef{Dir: dir, Now: testNow}, false, 2031)
	require.NoError(t, err)
	net := answer.Seasons[0].Total().Net
	assert.Equal(t, decimal.New(crumbs.Load(), -6).String(), net.String(), "and every gram is in the account")
}

// momentOf spreads the lifts over the days before now.
func momentOf(client, round int) string {
	return testNow.Add(-time.Duration(1+client*60+round%60) * time.Minute).Format("2006-01-02T15:04")
}

// fullBowl is a bowl with next to nothing in it, as no other one: the same again
// within minutes would be asked about, and so would more than a tub gives.
func fullBowl(client, round int) string { return fmt.Sprintf("250.%06d", crumb(client, round)) }

// crumb is what is in it, in millionths of a gram.
func crumb(client, round int) int64 { return int64(1 + 1000*client + round) }

// weighOne logs a crumb.
func weighOne(browser *http.Client, address string, client, round int) error {
	answer, err := browser.PostForm(address+"/weigh", url.Values{
		"once": {fmt.Sprintf("%d-%d", client, round)}, "planting": {"tub-3"}, "unit": {"g"},
		"bowl-1-full": {fullBowl(client, round)}, "bowl-1-empty": {"250"}, "at": {momentOf(client, round)}})
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return err
	}
	if answer.StatusCode != http.StatusSeeOther {
		return fmt.Errorf("%s: %s", answer.Status, strings.TrimSpace(string(body)))
	}
	return nil
}

func fetch(browser *http.Client, address string) error {
	answer, err := browser.Get(address)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	if _, err := io.Copy(io.Discard, answer.Body); err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK {
		return fmt.Errorf("%s: %s", address, answer.Status)
	}
	return nil
}
