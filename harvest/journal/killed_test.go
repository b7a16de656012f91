package journal

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/harvest"
	"trencher/harvest/tables"
	"trencher/units"
)

var errKilled = errors.New("killed")

// dyingDisk is the disk of a program that is killed at its Nth call: that one and
// all after it, tidying up too, are never made; a write stops half-way.
type dyingDisk struct {
	realDisk
	noLinks bool
	once    bool // it only refuses its Nth call, and works on
	lock    sync.Mutex
	left    int // calls until it dies
}

// dead counts a call and tells whether it is never made.
func (d *dyingDisk) dead() (now, already bool) {
	d.lock.Lock()
	defer d.lock.Unlock()
	d.left--
	return d.left == 0, d.left < 0 && !d.once
}

func (d *dyingDisk) do(call func() error) error {
	if now, already := d.dead(); now || already {
		return errKilled
	}
	return call()
}

func (d *dyingDisk) MakeFolder(path string) error {
	return d.do(func() error { return d.realDisk.MakeFolder(path) })
}

func (d *dyingDisk) Link(old, new string) error {
	return d.do(func() error {
		if d.noLinks {
			return &os.LinkError{Op: "link", Old: old, New: new, Err: syscall.EPERM}
		}
		return d.realDisk.Link(old, new)
	})
}

func (d *dyingDisk) Rename(old, new string) error {
	return d.do(func() error { return d.realDisk.Rename(old, new) })
}

func (d *dyingDisk) Remove(path string) error {
	return d.do(func() error { return d.realDisk.Remove(path) })
}

func (d *dyingDisk) SyncFolder(path string) error {
	return d.do(func() error { return d.realDisk.SyncFolder(path) })
}

func (d *dyingDisk) Create(path string) (f diskFile, err error) {
	err = d.do(func() error {
		f, err = d.realDisk.Create(path)
		return err
	})
	if err != nil {
		return nil, err
	}
	return &dyingFile{f, d}, nil
}

type dyingFile struct {
	diskFile
	disk *dyingDisk
}

func (f *dyingFile) Write(data []byte) (int, error) {
	now, already := f.disk.dead()
	switch {
	case now:
		n, _ := f.diskFile.Write(data[:len(data)/2])
		return n, errKilled
	case already:
		return 0, errKilled
	}
	return f.diskFile.Write(data)
}

func (f *dyingFile) Chmod(mode fs.FileMode) error {
	return f.disk.do(func() error { return f.diskFile.Chmod(mode) })
}

func (f *dyingFile) Sync() error { return f.disk.do(f.diskFile.Sync) }

func (f *dyingFile) Close() error {
	return errors.Join(f.disk.do(func() error { return nil }), f.diskFile.Close())
}

// A job is something a person has written down, as the commands and forms do it.
type job struct {
	name  string
	whole bool // one entry: all of it is written or none
	do    func(f *Folder) error
}

func jobs(t *testing.T) []job {
	at := time.Date(2031, 7, 20, 8, 0, 0, 0, time.UTC)
	phone := device(t)
	lifted(t, phone, 30, 1150)
	lifted(t, phone, 35, 842)
	_, parcel := packed(t, phone, WholePlot)
	table := []byte("planting,at,net\ntub-3,2031-07-18,1.2 kg\ntub-3,2031-07-19,800 g\ntub-3,2031-07-21,650 g\n")
	layout := tables.Words{Dates: "ymd"}
	return []job{
		{"a lift", true, func(f *Folder) error {
			weighing, err := harvest.ParseWeighing("820 g", 0)
			require.NoError(t, err)
			_, err = f.Write(&harvest.Lift{Header: harvest.Header{At: at}, Planting: "tub-3", Weighings: []harvest.Weighing{weighing}})
			return err
		}},
		{"a plan taken", true, func(f *Folder) error {
			ledger, err := f.Ledger(t.Context(), Options{}, at)
			require.NoError(t, err)
			account, err := ledger.Account()
			require.NoError(t, err)
			stock := account.Stock()
			require.Len(t, stock.Lots, 1)
			lot := stock.Lots[0].ID
			planned := harvest.NewPlanned(at, stock,
				[]harvest.Making{{Dish: "Mash", Portions: 2}, {Dish: "Salad", Portions: 1}},
				[]harvest.Use{{Lot: lot, Weight: units.MustParse("300 g"), Dish: "Mash"}, {Lot: lot, Weight: units.MustParse("120 g"), Dish: "Salad"}})
			planned.At = at
			_, err = f.Write(planned)
			return err
		}},
		{"an old table", false, func(f *Folder) error {
			_, err := f.Import(t.Context(), Source{File: "old.csv", Data: table}, layout, Options{}, at.AddDate(0, 0, 2))
			return err
		}},
		{"a parcel from the phone", false, func(f *Folder) error {
			_, err := f.Bring(t.Context(), parcel, KeepOwn, Options{})
			return err
		}},
	}
}

// account is what the plot adds up to, read as every command reads it, and its
// entries by their bytes.
func account(t *testing.T, f *Folder) (entries map[string]int, faults error) {
	t.Helper()
	whole, _, err := f.Season(context.Background(), 2031, Options{})
	entries = map[string]int{}
	for _, e := range whole {
		written, err := encodeEntry(e)
		require.NoError(t, err)
		entries[string(written)]++
	}
	return entries, err
}

// A program killed before any call it makes of the file system, at the write
// half-way, leaves a plot that every command reads; each entry is there whole or
// not at all; and once `journal mend` has settled what is left and the job is
// done again, the account is that of a program nobody killed.
func TestKilledAtEveryCall(t *testing.T) {
	for _, noLinks := range []bool{false, true} {
		for _, job := range jobs(t) {
			name := job.name
			if noLinks {
				name += ", without links"
			}
			t.Run(name, func(t *testing.T) {
				untouched := device(t)
				lifted(t, untouched, 0, 1500)
				before, err := account(t, untouched)
				require.NoError(t, err)
				require.NoError(t, job.do(untouched))
				after, err := account(t, untouched)
				require.NoError(t, err)
				require.Greater(t, len(after), len(before))
				step := 1
				if !job.whole && os.Getenv("TRENCHER_LONG") == "" {
					step = 4 // TRENCHER_LONG=1 tries them all
				}
				for n := 1; ; n += step {
					if !killedAt(t, job, n, noLinks, before, after) {
						assert.Greater(t, n, 6, "create, write, sync, close, link and sync of the folder were each tried")
						return
					}
				}
			})
		}
	}
}

// killedAt does a job with a disk that dies at the Nth call, and then what a
// person would do next; false when the job is done before.
func killedAt(t *testing.T, job job, n int, noLinks bool, before, after map[string]int) bool {
	f := device(t)
	lifted(t, f, 0, 1500)
	dying := &dyingDisk{left: n, noLinks: noLinks}
	f.disk = dying
	done := job.do(f)
	died := dying.left <= 0
	f.disk = &faultyDisk{noLinks: noLinks}
	old := time.Date(2031, 7, 20, 7, 0, 0, 0, time.UTC)
	left, err := f.Unfinished()
	require.NoError(t, err)
	for _, file := range left { // somebody looks an hour later
		require.NoError(t, os.Chtimes(filepath.Join(f.dir, file), old, old))
	}
	seen, err := account(t, f)
	require.NoError(t, err, "call %d", n)
	if job.whole {
		require.Contains(t, []map[string]int{before, after}, seen, "call %d", n)
	}
	for entry := range seen {
		require.Contains(t, after, entry, "call %d", n)
	}
	if done == nil {
		require.Equal(t, after, seen, "call %d: reported as done", n)
	}
	_, err = f.Mend(t.Context(), Options{}, old.Add(2*time.Hour))
	require.NoError(t, err, "call %d", n)
	seen, err = account(t, f)
	require.NoError(t, err, "call %d", n)
	if !job.whole || len(seen) == len(before) {
		require.NoError(t, job.do(f), "call %d", n)
		seen, err = account(t, f)
		require.NoError(t, err, "call %d", n)
	}
	require.Equal(t, after, seen, "call %d", n)
	return died
}

// slowDisk has no links, and writes in two halves with a pause between.
type slowDisk struct{ realDisk }

func (slowDisk) Link(old, new string) error {
	return &os.LinkError{Op: "link", Old: old, New: new, Err: syscall.EPERM}
}

func (d slowDisk) Create(path string) (diskFile, error) {
	f, err := d.realDisk.Create(path)
	return slowFile{f}, err
}

type slowFile struct{ diskFile }

func (f slowFile) Write(data []byte) (int, error) {
	first, err := f.diskFile.Write(data[:len(data)/2])
	if err != nil {
		return first, err
	}
	time.Sleep(time.Millisecond)
	rest, err := f.diskFile.Write(data[len(data)/2:])
	return first + rest, err
}

// Where there are no links an entry is written under its name in view of
// everybody: who reads meanwhile sees every entry that is finished, no other, and
// never an error.
func TestReadWhileOthersWriteWithoutLinks(t *testing.T) {
	f := device(t)
	f.disk = slowDisk{}
	var finished atomic.Int64
	var writers sync.WaitGroup
	for writer := range 4 {
		writers.Go(func() {
			for n := range 25 {
				lifted(t, f, 30*writer+n, 500+n)
				finished.Add(1)
			}
		})
	}
	written := make(chan struct{})
	go func() { writers.Wait(); close(written) }()
	for reads, done := 0, false; !done || reads < 3; reads++ {
		select {
		case <-written:
			done = true
		default:
		}
		before := finished.Load()
		entries, _, err := f.Season(t.Context(), 2031, Options{})
		require.NoError(t, err)
		require.GreaterOrEqual(t, int64(len(entries)), before)
		for _, e := range entries {
			require.Empty(t, e.(*harvest.Lift).Problems())
		}
	}
	entries, left, err := f.Season(t.Context(), 2031, Options{})
	require.NoError(t, err)
	require.Empty(t, left)
	require.Len(t, entries, 100)
}
