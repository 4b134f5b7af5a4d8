package characters

import (
	"strings"
)

// minds are verbs whose subject thinks, feels, wants or perceives: whoever
// does that is somebody. Common practice in animacy detection; the list is
// ours.
var minds = set(`think know believe feel want wish hope fear love hate like dislike enjoy remember forget
	wonder suppose guess understand decide intend mean dream imagine doubt expect trust
	notice see hear listen watch look smell taste recognise recognize perceive
	regret pity envy admire despise dread mourn grieve rejoice long yearn desire
	weep cry laugh smile sob sigh frown blush shudder tremble scowl grin
	beg pray promise refuse agree consent obey forgive thank ask answer reply say tell speak talk
	sleep wake awake eat drink marry`)

// deeds are verbs that mostly somebody does.
var deeds = set(`go come run walk ride climb jump leap creep crawl hurry rush wander march swim sit stand kneel lie rise
	take give bring carry fetch hold catch throw pull push lift pick put lay open shut close lock knock hide seek find
	make build cook bake sew spin weave wash sweep dress clean mend cut dig plant sow reap hunt fish kill fight strike hit kick
	wave nod bow point turn return leave follow meet visit greet kiss hug embrace help serve save rescue steal rob cheat lie
	read write learn teach study work play dance sing live dwell wait stay rest buy sell pay`)

func set(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}
