package page

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"os"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
)

// A real flood: forty machines send wrong codes as fast as they can, over as many
// connections as they get, and somebody with the right code is in within five
// seconds, again and again. TRENCHER_LONG=1 keeps it up for ten seconds.
func TestDoorUnderARealFlood(t *testing.T) {
	if os.Getenv("TRENCHER_LONG") == "" {
		t.Skip("TRENCHER_LONG=1 floods the door")
	}
	var code atomic.Value
	address := serveUntilEnd(t, Options{Where: ask.PlotRef{Dir: newPlot(t)}, Phone: true, Announce: func(next string) { code.Store(next) }, Now: time.Now})
	ctx, stop := context.WithTimeout(t.Context(), 10*time.Second)
	defer stop()
	var wrong atomic.Int64
	var flood sync.WaitGroup
	for n := range 40 {
		flood.Go(func() {
			machine := callsFrom(fmt.Sprintf("127.0.1.%d", n+1))
			for ctx.Err() == nil {
				if answer, err := machine.PostForm(address+"/code", url.Values{"code": {fmt.Sprintf("guess%05d", n)}}); err == nil {
					answer.Body.Close()
					wrong.Add(1)
				}
			}
		})
	}
	longest, let := time.Duration(0), 0
	for ctx.Err() == nil {
		phone := callsFrom(fmt.Sprintf("127.0.2.%d", let%250+1))
		phone.Timeout = 5 * time.Second
		from := time.Now()
		answer, err := phone.PostForm(address+"/code", url.Values{"code": {code.Load().(string)}})
		require.NoError(t, err, "five seconds")
		answer.Body.Close()
		require.Equal(t, http.StatusSeeOther, answer.StatusCode)
		longest, let = max(longest, time.Since(from)), let+1
		time.Sleep(200 * time.Millisecond)
	}
	flood.Wait()
	t.Logf("%d wrong codes; %d let in, the slowest after %s", wrong.Load(), let, longest)
	require.NotZero(t, wrong.Load())
}

// callsFrom is a machine at an address of this one's own.
func callsFrom(address string) *http.Client {
	from := &net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(address)}}
	return &http.Client{Transport: &http.Transport{DialContext: from.DialContext},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
}
