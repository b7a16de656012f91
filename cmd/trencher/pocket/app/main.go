//go:build js && wasm

// Command app is the page of package page inside a phone's browser: the same
// handler, asked by the shell around it and not over a network. The plot lies
// under /plot in the browser's own store, which the host presents as files.
package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"os"
	"strings"
	"syscall/js"
	"time"
	_ "time/tzdata" // the phone's zone is known by name alone

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/page"
	"trencher/harvest/journal"
)

const (
	plotFolder = "/plot"
	parcelFile = "/parcel.zip" // the plot as it came with the page
	seenFile   = "/parcel.seen"
	settings   = "/settings"
)

func main() {
	ready := js.Global().Get("trencherReady")
	handler, err := begin(context.Background())
	if err != nil {
		ready.Invoke(err.Error())
		return
	}
	js.Global().Set("trencherAnswer", answering(handler))
	ready.Invoke(js.Null())
	select {} // the browser asks from here on
}

// begin makes the page of the plot, which it brings up to date first when the
// page has come with a newer one.
func begin(ctx context.Context) (http.Handler, error) {
	zone, err := time.LoadLocation(os.Getenv("TZ"))
	if err != nil {
		return nil, fmt.Errorf("this phone's time zone %q is not known", os.Getenv("TZ"))
	}
	now := func() time.Time { return time.Now().In(zone) }
	if err := unpack(ctx, zone); err != nil {
		return nil, err
	}
	served, err := page.New(page.Options{Where: ask.PlotRef{Dir: plotFolder, Device: device}, Port: 80, Pocket: true, Now: now})
	if err != nil {
		return nil, err
	}
	return served.Handler(), nil
}

// device is the name this phone signs entries with. It lies beside the plot, not
// in it, and does not go home.
func device() string {
	return journal.DeviceName(func() (string, error) { return settings, nil })
}

// unpack takes in the plot that came with the page, once. Stopped half way it
// goes on where it was the next time.
func unpack(ctx context.Context, zone *time.Location) error {
	parcel, err := os.ReadFile(parcelFile)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(parcel)
	mark := []byte(hex.EncodeToString(sum[:]))
	if seen, err := os.ReadFile(seenFile); err == nil && bytes.Equal(seen, mark) {
		return nil
	}
	// Entries that cannot be read are left out here: the plot they come from
	// names them.
	if _, err := journal.Unpack(ctx, plotFolder, parcel, journal.Options{Zone: zone}); err != nil {
		return err
	}
	return os.WriteFile(seenFile, mark, 0o644)
}

// answering is the function the browser puts a request to: method, address,
// type and bytes of a form. It promises status, headers and body.
func answering(handler http.Handler) js.Func {
	return js.FuncOf(func(_ js.Value, request []js.Value) any {
		method, address, kind := request[0].String(), request[1].String(), request[2].String()
		body := make([]byte, request[3].Length())
		js.CopyBytesToGo(body, request[3])
		var work js.Func
		work = js.FuncOf(func(_ js.Value, settle []js.Value) any {
			go func() {
				defer work.Release()
				settle[0].Invoke(answer(handler, method, address, kind, body))
			}()
			return nil
		})
		return js.Global().Get("Promise").New(work)
	})
}

func answer(handler http.Handler, method, address, kind string, body []byte) map[string]any {
	request, err := http.NewRequest(method, "http://localhost"+address, bytes.NewReader(body))
	if err != nil {
		return map[string]any{"status": http.StatusBadRequest, "headers": map[string]any{}, "body": bytesToBrowser(nil)}
	}
	if kind != "" {
		request.Header.Set("Content-Type", kind)
	}
	written := &written{header: http.Header{}}
	handler.ServeHTTP(written, request)
	headers := map[string]any{}
	for name, values := range written.header {
		headers[name] = strings.Join(values, ", ")
	}
	return map[string]any{"status": max(written.status, http.StatusOK), "headers": headers, "body": bytesToBrowser(written.body.Bytes())}
}

func bytesToBrowser(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// written keeps an answer until it is whole.
type written struct {
	header http.Header
	status int
	body   bytes.Buffer
}

func (w *written) Header() http.Header { return w.header }

func (w *written) WriteHeader(status int) {
	if w.status == 0 {
		w.status = status
	}
}

func (w *written) Write(data []byte) (int, error) {
	w.WriteHeader(http.StatusOK)
	return w.body.Write(data)
}
