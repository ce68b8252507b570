/*
 * Schedules, cones typed in, and advice. Tone and grade as in sentences.ts. Cautions of fixed text are in cautions.ts;
 * what stands here adds to them and takes nothing away.
 */
export const scheduleSentences = {
  "schedule.dry": "Go slowly, then wait below boiling. Water must leave raw clay before it turns to steam.",
  "schedule.last-water": "The last of the damp leaves here. Steam in thick ware can burst it.",
  "schedule.clay-water-quartz": "The clay gives off bound water, and quartz grows at {quartz}. Go slowly through both.",
  "schedule.burn-out": "What can burn in the clay burns now. Keep the vent on to {target}.",
  "schedule.glaze-damp": "Glaze and feet dry out here. Damp glaze can jump off the ware.",
  "schedule.climb": "Little happens in fired ware here. The kiln can climb.",
  "schedule.quartz-fired": "Quartz in the ware grows at {quartz}. Go a bit slower through it.",
  "schedule.climb-on": "The glaze melts late. Up to {target} the kiln can climb.",
  "schedule.oils": "Oils in the lustre burn off. Go slowly with the vent on, so that the smoke can leave.",
  "schedule.end": "The cone chart is made for this rate. A slow end lets hidden ware catch up.",
  "schedule.end-hold": "A slower end and a wait let cold places catch up. The peak is lower for it.",
  "schedule.note.label-first":
    "This is a place to start. The label of the clay or glaze and the kiln’s manual come first.",
  "schedule.note.quartz-cooling":
    "Keep the lid shut as it cools. At {quartz} and {cristobalite} ware shrinks at once, and can crack.",
  "schedule.note.bone-dry": "Fire raw ware only when it is dry right through. Cool on the cheek means damp.",
  "schedule.note.steam": "Damp ware bursts. One burst pot can spoil a load.",
  "schedule.note.once-fired":
    "There is raw ware in this load. It needs the slow start of a bisque, and a glaze that is made for raw ware.",
  "schedule.note.thick": "Thick ware sets the pace here. Its middle lags behind its skin.",
  "schedule.note.lustre-fumes": "Lustre gives off harmful fumes. Vent outdoors, and stay out of the room.",

  "fault.too-hot": "Step {step} asks for {target}. {kiln} may go to {limit} and no higher.",
  "fault.too-fast": "Step {step} asks for {rate}. Near {target} {kiln} manages about {can}.",
  "fault.does-nothing": "Step {step} does nothing. Take it out.",
  "fault.no-heating": "This schedule does not heat the kiln. Add a step.",
  "fault.wrong-cone": "This schedule does not end near {cone:full}. Check the cone digits once more.",
  "fault.falls-behind": "{kiln} cannot hold {rate} above {reached} with this load. It falls behind at {time}.",

  "ask.sign":
    "You wrote {entered:full}. It bends at {enteredAt}. This ware is near {likely:full}, which bends at {likelyAt}. Which one do you mean?",
  "ask.far":
    "You wrote {entered:full}. It bends at {enteredAt}. This class is fired to {likely:full}, which bends at {likelyAt}. Is that what you mean?",
  "ask.between": "There is no cone “{text}”. Do you mean {nearest:full}?",
  "ask.not-a-cone": "We know no cone “{text}”. Write 06 for low fire, or 6 for high fire.",

  "advice.found": "End at {target} and hold for {hold}. Then all {count} pieces are in their range.",
  "advice.found-no-hold": "End at {target}, with no hold. Then all {count} pieces are in their range.",
  "advice.spread":
    "No end suits all pieces. The least the coldest and the hottest can be apart is {spread}. Their range is {allowed}.",
  "advice.kiln": "The ware needs more heat than {kiln} may give. Its limit is {limit}.",
  "advice.pieces": "{cold} gets least and {hot} gets most.",
  "move.exchange-ware": "Swap the ware of shelf {a} and shelf {b}.",
  "move.reorder-layers": "Move shelf {a} with its ware nearer the middle.",
  "move.exchange-pieces": "Swap {cold} and {hot}.",
  "move.take-out-pieces": "Leave {count#one piece|{count} pieces} for another firing.",
  "move.take-out-layer": "Take out shelf {a} and {count#its piece|its {count} pieces}.",
  "move.mends": "Then a schedule suits all that is left.",
  "move.helps": "That mends {share} of it.",
  "move.no-help": "That does not help.",
} as const;
