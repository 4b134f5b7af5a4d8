package nlp

// Families lists the shipped feeling families in their fixed order; the rest
// of what is known about them lies in readable files. Ids are open strings: a
// household may add its own, and no code switches on this list.
var Families = []string{
	"joy", "calm", "relief", "love", "pride", "gratitude", "excitement",
	"curiosity", "surprise", "sadness", "loneliness", "fear", "worry", "anger",
	"frustration", "disgust", "shame", "guilt", "jealousy", "confusion",
	"hunger", "thirst", "tiredness", "pain", "cold", "heat", "sickness",
}

// Places lists the shipped body places in their fixed order.
var Places = []string{
	"head", "face", "eyes", "mouth", "throat", "chest", "belly", "back",
	"arms", "hands", "legs", "feet", "skin", "whole-body",
}
