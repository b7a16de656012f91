// Package page is the local web page: the same jobs as the commands, asked
// with forms and answered with the same answers. It needs no script, and runs one
// of its own on the cooking screen alone; it holds no state but the phone's visit,
// and writes through the same journal as the command line. Only package ask is asked; no path from a request reaches
// the disk.
package page

import (
	"embed"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"strconv"
	"strings"
	"time"

	"trencher/cmd/trencher/ask"
	"trencher/cmd/trencher/render"
)

//go:embed screens/*.gohtml page.css
var files embed.FS

// Options say which plot the page is for and who may open it.
type Options struct {
	Where ask.PlotRef
	Port  int  // the port the page is reached at, checked against every request
	Phone bool // let others on the local network in, against the code

	Pocket bool // the page is on a phone: what is written goes home in parcels

	ServeAt string // the time a meal is for when none is given; "" = none

	// Announce is called with each new code when Phone is set.
	Announce func(code string)
	Now      func() time.Time // the clock; nil = time.Now
}

// mostPlanning is how many plans are worked out at a time.
const mostPlanning = 2

// Page is the local web page of one plot. Make it with New.
type Page struct {
	where    ask.PlotRef
	port     int
	door     *door // nil when only this machine may ask
	now      func() time.Time
	screens  map[string]*template.Template
	style    asset
	script   asset // of the cooking screen
	weigh    asset // the script that adds up bowls
	away     asset // the script for when the network goes
	serveAt  string
	pocket   bool
	written  once
	answers  answers
	planning chan struct{} // holds a place for each planner run
	patience time.Duration
	handler  http.Handler
}

// New lays the page out. It does not listen yet; see Serve and Handler.
func New(options Options) (*Page, error) {
	p := &Page{where: options.Where, port: options.Port, now: options.Now, serveAt: options.ServeAt, pocket: options.Pocket,
		planning: make(chan struct{}, mostPlanning), patience: patience}
	if p.now == nil {
		p.now = time.Now
	}
	if p.pocket {
		p.patience = maxWorking // an answer comes whole; the shell around it says that it is worked out
	}
	p.written = once{born: newToken()[:bornLetters], where: p.ask}
	if options.Phone {
		p.door = newDoor(options.Announce, p.now)
	}
	if err := p.load(); err != nil {
		return nil, err
	}
	p.handler = p.guard(p.showAnswers(p.routes()))
	return p, nil
}

// bornLetters tell the forms of one run of the page from those of another.
const bornLetters = 8

// Handler answers the page's requests, guarded.
func (p *Page) Handler() http.Handler { return p.handler }

// load reads the embedded screens and style sheet.
func (p *Page) load() error {
	own, err := files.ReadFile("page.css")
	if err != nil {
		return fmt.Errorf("the page's own style sheet: %w", err)
	}
	p.style = newAsset("style", "css", "text/css; charset=utf-8", render.PlanStyle()+string(own))
	p.script = newAsset("cook", "js", "text/javascript; charset=utf-8", script)
	p.weigh = newAsset("weigh", "js", "text/javascript; charset=utf-8", weighScript)
	p.away = newAsset("away", "js", "text/javascript; charset=utf-8", awayScript)
	frame, err := template.New("frame.gohtml").Funcs(template.FuncMap{"saying": saying, "enter": enter}).ParseFS(files, "screens/frame.gohtml")
	if err != nil {
		return fmt.Errorf("the page's own frame: %w", err)
	}
	entries, err := files.ReadDir("screens")
	if err != nil {
		return err
	}
	p.screens = map[string]*template.Template{}
	for _, entry := range entries {
		name := strings.TrimSuffix(entry.Name(), ".gohtml")
		one, err := frame.Clone()
		if err == nil && name != "frame" {
			_, err = one.ParseFS(files, "screens/"+entry.Name())
		}
		if err != nil {
			return fmt.Errorf("the page's own screen %s: %w", name, err)
		}
		p.screens[name] = one
	}
	return nil
}

// job is one thing the page does.
type job struct {
	Path, Name, About string
	answer            func(*Page, http.ResponseWriter, *http.Request)
	write             func(*Page, http.ResponseWriter, *http.Request) // nil: nothing is written
}

// routes gives every address of the page.
func (p *Page) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /style.css", p.style.send) // the address that never changes, for whoever keeps it elsewhere
	for _, one := range []asset{p.style, p.script, p.weigh, p.away} {
		mux.HandleFunc("GET "+one.Address, one.send)
	}
	mux.HandleFunc("GET /share/sheet", p.sendSheet)
	mux.HandleFunc("GET /share/calendar", p.sendCalendar)
	mux.HandleFunc("GET /carry/plot", p.sendWholePlot)
	mux.HandleFunc("POST /carry/home", p.sendUntaken)
	mux.HandleFunc("GET /settle", p.showSettle)
	mux.HandleFunc("POST /settle", p.takeSettle)
	for _, one := range p.jobs() {
		path := one.Path
		if path == "/" {
			path = "/{$}"
		}
		mux.HandleFunc("GET "+path, func(w http.ResponseWriter, r *http.Request) { one.answer(p, w, r) })
		if one.write != nil {
			mux.HandleFunc("POST "+path, func(w http.ResponseWriter, r *http.Request) { one.write(p, w, r) })
		}
	}
	mux.Handle("/", p.refusal(http.StatusNotFound, "There is nothing at this address."))
	return mux
}

func send(w http.ResponseWriter, kind, text string) {
	w.Header().Set("Content-Type", kind)
	io.WriteString(w, text) // an error here means the browser has gone
}

// screen is what the frame lays out around a screen's own data.
type screen struct {
	Title string
	Bare  bool // without the list of jobs
	Again int  // seconds after which the browser is to load the screen again; 0 = never
	Data  any

	Latest []latestEntry // what was written last: filled in by frame
	Folded bool          // they stand folded, for room

	Failed bool // nothing was done: filled in by show, as what follows

	Jobs []job
	Here string
	Plot string

	Style, Script, Weigh, Away string // the addresses of the page's own files
	Shown                      string // when this was
}

// frame fills in what stands around every screen.
func (p *Page) frame(r *http.Request, s *screen) {
	s.Here, s.Plot = r.URL.Path, p.plotName()
	s.Style, s.Script, s.Weigh, s.Shown = p.style.Address, p.script.Address, p.weigh.Address, render.Moment(p.now())
	if !p.pocket { // there the network need not be there
		s.Away = p.away.Address
	}
	if !s.Bare {
		s.Jobs = p.jobs()
		s.Latest, s.Folded = p.latest(r), r.URL.Path == "/share" || r.URL.Path == "/cook"
	}
}

// show answers with a screen, whole or not at all.
func (p *Page) show(w http.ResponseWriter, r *http.Request, status int, name string, s screen) {
	p.frame(r, &s)
	s.Failed = status >= http.StatusBadRequest
	var text strings.Builder
	if err := p.screens[name].ExecuteTemplate(&text, "frame", s); err != nil {
		http.Error(w, "The page could not be laid out: "+err.Error(), http.StatusInternalServerError)
		return
	}
	one := answered{status, text.String()}
	if r.Method == http.MethodPost && (status == http.StatusOK || status == http.StatusUnprocessableEntity) {
		http.Redirect(w, r, p.answers.keep(r, one), http.StatusSeeOther)
		return
	}
	if s.Again > 0 {
		w.Header().Set("Refresh", strconv.Itoa(s.Again))
	}
	sendScreen(w, one)
}

// sendScreen sends a screen as it was laid out.
func sendScreen(w http.ResponseWriter, one answered) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(one.status)
	io.WriteString(w, one.text) // an error here means the browser has gone
}
