import type { NoteKey } from "#engine/advising";
import type { CheckMessageKey } from "#engine/checks";
import { scheduleSentences } from "./schedule-sentences.ts";
import { sheetSentences } from "./sheet-sentences.ts";

/*
 * English. A calm colleague at the next bench: you and we, short sentences, active, no blame. What is wrong, then why
 * it matters; the advice says what to do. School grade 6 (sentences.test.ts). Gaps are explained at `say` in message.ts.
 */
const found = {
  "found.shelf-outside": "Shelf {shelf} is too big for its place. It runs {over} into the wall.",
  "found.shelf-too-high": "Shelf {shelf} is outside the chamber by {over}.",
  "found.shelf-margin":
    "Shelf {shelf} is too near the wall. It has {measured:against limit} and needs {limit:bare} all round. Heat rises through that gap.",
  "found.shelf-overlap": "Shelf {shelf} and shelf {other} run into each other by {over}.",
  "found.bottom-gap":
    "There are {measured:against limit} under shelf {shelf}. It needs {limit:bare}. The floor is the coldest spot, and the vent draws from there.",
  "found.posts-count": "Shelf {shelf} stands on {count#one post|{count} posts}. It needs {limit}, or it can tip.",
  "found.posts-short": "The posts under shelf {shelf} are {off} too short. It would not stand.",
  "found.posts-long": "The posts under shelf {shelf} are {off} too long for their gap.",
  "found.posts-hold": "Shelf {shelf} can tip. Its weight is not between its posts.",
  "found.post-outside": "A post of shelf {shelf} stands {over} outside it. It holds nothing up.",
  "found.post-in-shelf": "A post of shelf {shelf} runs into the edge of shelf {other} by {over}.",
  "found.posts-in-line":
    "{count#A post|{count} posts} under shelf {shelf} {count#does|do} not stand over the posts of shelf {below}. {count#It is|The worst is} {off} off. The shelf below would carry the weight and could crack.",
  "found.posts-in-stack": "Shelf {shelf} has {count} posts in one stack. The rule here is {limit}. Tall stacks lean.",
  "found.posts-in-stock": "This load needs {count} posts of {length:post}. We have {limit}.",
  "found.shelves-in-stock": "This load needs {count} of the shelf “{name}”. We have {limit}.",
  "found.stilts-in-stock": "This load needs {count} of the stilt “{name}”. We have {limit}.",
  "found.ware-outside": "The {piece} runs {over} into the wall.",
  "found.ware-to-wall":
    "The {piece} is {measured:against limit} from the wall. The rule here is {limit}. So near the elements one side gets far more heat.",
  "found.sensor-shelf":
    "Shelf {shelf} is too near the sensor. It is {measured:against limit} from the tip and needs {limit:bare}. The sensor would read low and the kiln would over-fire.",
  "found.sensor-post":
    "A post of shelf {shelf} is too near the sensor. It is {measured:against limit} from the tip and needs {limit:bare}. The sensor would read low and the kiln would over-fire.",
  "found.sensor-piece":
    "The {piece} is too near the sensor. It is {measured:against limit} from the tip and needs {limit:bare}. The sensor would read low and the kiln would over-fire.",
  "found.sensor-cones":
    "The cone pack on shelf {shelf} is too near the sensor. It is {measured:against limit} from the tip and needs {limit:bare}.",
  "found.no-headroom": "The {piece} does not fit under shelf {shelf}. It is {over} too tall.",
  "found.headroom": "There are {measured:against limit} above the {piece}. The rule here is {limit}.",
  "found.no-lid-headroom": "The lid will not shut. The {piece} is {over} too tall.",
  "found.lid-headroom": "There are {measured:against limit} between the {piece} and the lid. The rule here is {limit}.",
  "found.into-shelf": "The {piece} runs into the edge of shelf {shelf} by {over}.",
  "found.beside-shelf":
    "The {piece} is {measured:against limit} from the edge of shelf {shelf}. The rule here is {limit}. Glaze could stick to it.",
  "found.pieces-overlap": "The {a} and the {b} stand in each other by {over}.",
  "found.piece-in-cones": "The {piece} stands in the cone pack by {over}.",
  "found.glaze-gap":
    "The {a} and the {b} are {measured:against limit} apart. The rule here is {limit}. Glaze that touches will stick.",
  "found.glaze-touch": "The {a} and the {b} touch. The rule here is {limit} apart. Glaze that touches will stick.",
  "found.piece-on-post": "The {piece} stands in a post by {over}.",
  "found.post-gap": "The {piece} is {measured:against limit} from a post. The rule here is {limit}.",
  "found.foot-overhang": "The foot of the {piece} hangs over the shelf edge by {over}. It could tip.",
  "found.foot-straddle":
    "The {piece} stands on shelf {shelf} and shelf {other} at once. When one moves, it cracks or tips.",
  "found.stilt-span":
    "The stilt under the {piece} leaves {measured:against limit} unheld. The rule here is {limit}. The floor could sag.",
  "found.stilt-off-foot":
    "The stilt under the {piece} is too small. Its foot stands out by {measured:against limit} in all. The rule here is {limit}. It could sag or tip.",
  "found.stilt-heat-metal":
    "{count#A piece stands|{count} pieces stand} on metal points. This load goes to {peak}. Metal points are for up to {limit}: above that they bend and stick.",
  "found.stilt-heat":
    "{count#A piece stands|{count} pieces stand} on stilts made for up to {limit}. This load goes to {peak}.",
  "found.one-class":
    "This load is {class}, but {count#one piece is|{count} pieces are} of another class. They need different heat.",
  "found.cone-set": "{set:cone} is set, but the ware is for {wanted:cone}.",
  "found.cone-digits":
    "{set:cone} is set, but the ware is for {wanted:cone}. {set:spell} is {set:fire} and would ruin this load.",
  "found.schedule-cone": "The schedule “{name}” goes to about {set:cone}, but the ware is for {wanted:cone}.",
  "found.schedule-digits":
    "The schedule “{name}” goes to about {set:cone}, but the ware is for {wanted:cone}. {set:spell} is {set:fire} and would ruin this load.",
  "found.cones-fit":
    "The cone pack on shelf {shelf} does not fit where it is. It is {over} over the edge or in the way.",
  "found.cones-for-class":
    "The cone pack on shelf {shelf} has no {wanted:cone}. It could not tell if the ware is done.",
  "found.cones-digits":
    "The cone pack on shelf {shelf} holds {set:cone}. The ware is for {wanted:cone}. Are the digits right?",
  "found.cones-behind-piece": "The {blocker} hides cone {cone} on shelf {shelf} from the spyhole.",
  "found.cones-behind-post": "A post hides cone {cone} on shelf {shelf} from the spyhole.",
  "found.cones-behind-shelf": "A shelf hides cone {cone} on shelf {shelf} from the spyhole.",
  "found.cones-out-of-view":
    "No spyhole looks at the {count#cone pack on shelf|cone packs on shelves} {shelves}. You can read {count#it|them} only after the firing.",
  "found.cones-on-levels":
    "{count#There are cones on one level|There are cones on {count} levels}. Bottom, middle and top tell how even this kiln fires.",
  "found.shelf-load":
    "Shelf {shelf} carries {measured:against limit} of ware. The rule here is {limit}. It could sag or crack.",
  "found.two-person-lift": "Shelf {shelf} weighs {measured}. That is a lift for two.",
  "found.bottom-heavy":
    "The bottom third of the kiln holds {measured} of the weight. A third would be even. The bottom would stay cold.",
  "found.middle-heavy":
    "The middle third of the kiln holds {measured} of the weight. A third would be even. The middle would stay cold.",
  "found.top-heavy":
    "The top third of the kiln holds {measured} of the weight. A third would be even. The top would stay cold.",
  "found.first-gap":
    "There are {measured:against limit} above the bottom shelf. With {limit} the bottom gets more heat.",
  "found.gap-under-lid":
    "There are {measured:against limit} between shelf {shelf} and the lid. With {limit} the top fires more like the rest.",
  "found.staggered-halves":
    "Half shelves {shelf} and {other} are at one height. Half shelves set apart in height fire more evenly.",
  "found.ringed":
    "The {piece} sits low in a ring of tall ware. The ring hides {measured} of the way round and keeps the heat from it.",
  "found.exposure":
    "The {piece} sees little of the hot wall: {measured} of its view. Half of the load sees {median} or more.",
  "found.tall-at-rim": "Shelf {shelf} has its tall ware at the rim. It shades the low ware in the middle.",
  "found.platter-bottom":
    "{count#The {piece} is|{count} platters are} on the bottom shelf. Wide flat ware cracks more there.",
  "found.platter-top": "{count#The {piece} is|{count} platters are} on the top shelf. Wide flat ware warps more there.",
} as const;

const advice = {
  "do.shelf-inward": "Move shelf {shelf} to the middle, or use a smaller one.",
  "do.smaller-shelf": "Use a smaller shelf, or move shelf {shelf} to the middle.",
  "do.shelf-lower": "Use shorter posts under shelf {shelf}.",
  "do.shelves-apart": "Move one of them, or change its posts.",
  "do.posts": "Put {length:post} posts under shelf {shelf}.",
  "do.posts-stacked": "Put {length:post} under shelf {shelf}: posts of {stack} mm.",
  "do.posts-under-bottom": "Put posts of {limit:post} or more under it.",
  "do.add-post": "Add {count#a post|{count} posts}.",
  "do.posts-that-reach": "Use posts that make {gap:post}.",
  "do.spread-posts": "Set the posts further apart, round the weight.",
  "do.post-under-shelf": "Move the post under the shelf.",
  "do.post-clear-of-shelf": "Move the post away from that edge.",
  "do.posts-over-posts": "Set each post right over a post of shelf {below}.",
  "do.fewer-posts": "Use longer posts, and fewer of them.",
  "do.other-posts": "Make that height from other posts.",
  "do.other-shelf": "Use another kind of shelf, or one layer less.",
  "do.other-stilts": "Use other stilts for some pieces, or wipe their feet.",
  "do.move-inward": "Move the {piece} {by} toward the middle.",
  "do.move-by": "Move the {piece} {by}. The plan shows where.",
  "do.move-from-sensor": "Move the {piece} away from the sensor.",
  "do.shelf-from-sensor": "Change the posts under shelf {shelf}, or turn or move it clear of the sensor.",
  "do.post-from-sensor": "Turn the posts so that none is near the sensor.",
  "do.longer-posts": "Put longer posts under shelf {shelf}, or set the tall ware elsewhere.",
  "do.other-place": "Give the {piece} another place.",
  "do.apart": "Move the {a} or the {b}.",
  "do.move-off-post": "Move the {piece} off the post.",
  "do.onto-shelf": "Give the {piece} a place where its foot is all on one shelf.",
  "do.hotter-stilt": "Use stilts made for this heat, or wipe the feet.",
  "do.ceramic-stilt": "Use stilts with ceramic points, or wipe the feet.",
  "do.no-stilt": "Use more than one stilt, or wipe the foot of the {piece} and set it on the shelf.",
  "do.take-out": "Take {count#it|them} out. {count#It goes|They go} in another load.",
  "do.set-cone": "Set the kiln to {wanted}. Then check the digits once more.",
  "do.set-schedule": "Choose a schedule for {wanted:cone}. Then check the digits once more.",
  "do.pack-for-class": "Make up a pack with {wanted:cone} in the middle.",
  "do.turn-cones": "Turn or move the cone pack until you see all its cones.",
  "do.cones-by-spyhole": "Put a cone pack in line with a spyhole, a little way in from the wall.",
  "do.cones-elsewhere": "Give the cone pack another place.",
  "do.cones-levels": "Add a cone pack on the bottom, a middle and the top shelf.",
  "do.lighter-shelf": "Move {over} of ware to another shelf.",
  "do.lift-with-two": "Ask someone to lift it in with you.",
  "do.move-up": "Move some ware or a shelf up.",
  "do.spread-mass": "Move some ware up and some down.",
  "do.move-down": "Move some ware or a shelf down.",
  "do.airy-first": "Put the tallest ware on the bottom shelf, with longer posts over it.",
  "do.airy-top": "Put low ware on top and leave air over it.",
  "do.stagger": "Set one of them higher than the other.",
  "do.flat-to-rim": "Put the {piece} at the rim, and the tall ware in the middle.",
  "do.more-view": "Give the {piece} a place where it sees more of the wall.",
  "do.tall-inward": "Put tall ware in the middle and low ware at the rim.",
  "do.platter-middle": "Put {count#it|them} on a middle shelf, if there is room.",
} as const;

const rule = {
  "rule.shelf-outside": "Every shelf is inside the chamber.",
  "rule.shelf-margin": "Every shelf is at least {limit} smaller across than the chamber.",
  "rule.shelf-overlap": "No shelf runs into another.",
  "rule.bottom-gap": "The bottom shelf stands on at least {limit}.",
  "rule.posts-count": "Every shelf stands on {limit} posts or more.",
  "rule.posts-reach": "All posts reach from what is below to their shelf.",
  "rule.posts-hold": "The weight on every shelf is between its posts.",
  "rule.post-outside": "Every post stands under the shelf it holds up.",
  "rule.post-in-shelf": "No post runs into the edge of a shelf.",
  "rule.posts-in-line": "Posts stand over posts, from the floor up.",
  "rule.posts-in-stack": "No stack has more posts than the rule here allows.",
  "rule.posts-in-stock": "We have the posts.",
  "rule.shelves-in-stock": "We have the shelves.",
  "rule.stilts-in-stock": "We have the stilts.",
  "rule.ware-to-wall": "All ware is {limit} or more from the wall.",
  "rule.sensor-clear": "Nothing is within {limit} of the sensor’s tip.",
  "rule.headroom": "There are {limit} or more above all ware to the next shelf.",
  "rule.lid-headroom": "There are {limit} or more above all ware to the lid.",
  "rule.beside-shelf": "All ware is {limit} or more from the edge of a shelf beside it.",
  "rule.pieces-overlap": "No two pieces stand in each other.",
  "rule.glaze-gap": "Glazed pieces are {limit} or more apart. Bisque may touch.",
  "rule.piece-on-post": "No piece stands in a post.",
  "rule.post-gap": "All ware is {limit} or more from a post.",
  "rule.foot-overhang": "Every foot is all on one shelf.",
  "rule.stilt-span": "No stilt leaves more than {limit} unheld.",
  "rule.stilt-heat": "No stilt gets hotter than it bears: metal points {limit}.",
  "rule.one-class": "All pieces are of one class.",
  "rule.cone-set": "The heat set is the heat the ware is for.",
  "rule.cones-fit": "Every cone pack stands on its shelf, clear of all else.",
  "rule.cones-for-class": "Every cone pack holds the cone of the class.",
  "rule.cones-seen": "Every cone can be seen from a spyhole.",
  "rule.cones-on-levels": "There are cones at the bottom, in the middle and at the top.",
  "rule.shelf-load": "No shelf carries more than {limit} of ware.",
  "rule.two-person-lift": "No shelf weighs more than {limit}, what one person should lift in.",
  "rule.mass-by-height": "No third of the height holds more than {limit} of the weight.",
  "rule.first-gap": "There are {limit} or more above the bottom shelf.",
  "rule.gap-under-lid": "There are {limit} or more between the top shelf and the lid.",
  "rule.staggered-halves": "Half shelves are at different heights.",
  "rule.ringed": "No flat piece is ringed by taller ware for more than {limit} of the way round.",
  "rule.exposure": "No flat piece sees less than {limit} of what the middle piece of the load sees of the hot wall.",
  "rule.tall-at-rim": "Tall ware is in the middle and low ware at the rim.",
  "rule.platter-place": "Platters are neither on the bottom nor on the top shelf.",
} as const;

const look = {
  "look.dry-ware": "All ware is dry right through.",
  "look.foot-wiped": "Every foot is wiped clean, or stands on a stilt.",
  "look.kiln-wash": "Shelves have sound kiln wash, on the top side only.",
  "look.shelves-sound": "No shelf or post is cracked or bent.",
  "look.kiln-clean": "The kiln is clean: no crumbs on the floor or in the grooves.",
  "look.elements": "No element is broken or out of its groove.",
  "look.vent-runs": "The vent runs and draws outdoors.",
  "look.controller-set": "The kiln is set to this class and these cone digits.",
  "look.someone-at-end": "Someone will be here at the end.",
} as const;

const wait = {
  "wait.too-wide": "It is too wide for any shelf here.",
  "wait.too-tall": "It is too tall for this kiln.",
  "wait.no-room": "There is no room left in this load.",
  "wait.no-stilt": "The stilts in stock are all in use.",
  "wait.later-promise": "Pieces with an earlier promise go first.",
  "wait.other-class": "It needs a different firing.",
  "wait.too-heavy": "It is too heavy for a shelf here.",
} as const;

export const sentences = {
  ...found,
  ...advice,
  ...rule,
  ...look,
  ...wait,
  ...scheduleSentences,
  ...sheetSentences,
} satisfies Readonly<Record<CheckMessageKey | NoteKey, string>> & Readonly<Record<string, string>>;

export type SentenceKey = keyof typeof sentences;
