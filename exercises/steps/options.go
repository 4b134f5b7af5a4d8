package steps

// Options say how the steps of a moment are made. The zero value is an
// ordinary teaching sitting with four choices, one of them near.
type Options struct {
	Choices  int  // feeling words to choose from, 2 to 8; 0 is 4
	Near     int  // how many of them lie near a fitting one; negative is none, 0 is 1
	Rich     bool // shipped words of the richer level where the learner has none
	Short    bool // pointing only: no Reason, nothing to say
	NoAndYou bool // the guide spares this learner And-you
	NoOffer  bool // a new word was offered already in this sitting
	Measure  bool // baseline or probe: no And-you, no What-could-help, no offer
}

func (o Options) choices() int {
	if o.Choices == 0 {
		return 4
	}
	return min(max(o.Choices, 2), 8)
}

func (o Options) near() int {
	switch {
	case o.Near < 0:
		return 0
	case o.Near == 0:
		return 1
	}
	return o.Near
}
