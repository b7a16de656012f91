package page

import (
	"fmt"
	"net/http"
	"strconv"

	"trencher/cmd/trencher/render"
)

// phonesJob stands among the jobs where phones are let in.
func phonesJob() job {
	return job{Path: "/phones", Name: "Phones", About: "who is let in, and signing out", answer: (*Page).showPhones, write: (*Page).takePhones}
}

// phonesScreen is who was let in.
type phonesScreen struct {
	Done, Once string
	Mend       []mending
	Phones     []phone
}

// phone is somebody who was let in.
type phone struct {
	Number                    int
	Device, From, Since, Seen string
	Here                      bool // it is the one that asks
}

func (p *Page) showPhones(w http.ResponseWriter, r *http.Request) {
	p.answerPhones(w, r, http.StatusOK, nil)
}

func (p *Page) answerPhones(w http.ResponseWriter, r *http.Request, status int, mend []mending) {
	view := phonesScreen{Done: p.written.of(r), Once: p.written.token(), Mend: mend}
	here, _ := p.door.visitOf(r)
	for _, v := range p.door.letInNow() {
		view.Phones = append(view.Phones, phone{Number: v.number, Device: render.DeviceWords(v.agent), From: v.from.String(),
			Since: render.Moment(v.since), Seen: render.Moment(v.seen), Here: v.number == here.number})
	}
	p.show(w, r, status, "phones", screen{Title: "Phones", Data: view})
}

// takePhones signs one phone out, or all.
func (p *Page) takePhones(w http.ResponseWriter, r *http.Request) {
	token := typed(r, "once")
	err := p.written.do(r, &token, func(string) (string, error) {
		number, err := strconv.Atoi(typed(r, "out"))
		all := typed(r, "all") != ""
		if err != nil && !all {
			return "", fmt.Errorf("which phone is to be signed out was not said")
		}
		out := p.door.signOut(func(v visit) bool { return all || v.number == number })
		if len(out) == 0 {
			return "", fmt.Errorf("that phone is signed in no more")
		}
		if all {
			return "All phones are signed out.", nil
		}
		return "Signed out: " + render.DeviceWords(out[0].agent) + ".", nil
	})
	if err != nil {
		p.answerPhones(w, r, http.StatusUnprocessableEntity, mendings(err, nil))
		return
	}
	http.Redirect(w, r, "/phones?done="+token, http.StatusSeeOther)
}
