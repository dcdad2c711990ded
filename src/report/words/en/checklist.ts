/**
 * The items that a complete report of such a study answers, in our own words after the STARD 2015
 * list (Bossuyt PM et al., BMJ 2015;351:h5527). Items 1 to 18 follow the published wording's sense;
 * items 19 to 30 are written from memory of the list.
 */
export const checklist = {
  heading: "Reporting checklist",
  lead: "What a complete report of such a study says, after STARD 2015, in our own words. Much of it stands in this document; the rest only the authors can write.",
  counts: (here: number, partly: number, authors: number) =>
    `${here} items are answered here, ${partly} in part, and ${authors} are the authors' to write.`,
  caption: "Items after STARD 2015 and where they are answered",
  columns: { item: "Item", asks: "What it asks", status: "Answered", where: "Where, or what is missing" },
  status: { here: "here", partly: "partly", authors: "authors" },
  source:
    "Bossuyt PM and others. STARD 2015: an updated list of essential items for reporting diagnostic accuracy studies. BMJ 2015;351:h5527. Items 19 to 30 are cited from memory, not yet checked.",
  items: {
    "1": "The title or summary says that this is a study of how well a test performs, and names a measure.",
    "2": "A structured summary gives design, methods, results and conclusions.",
    "3": "Background, intended use and the role of the test in care.",
    "4": "The aims and hypotheses.",
    "5": "Whether data collection was planned before or after the tests were done.",
    "6": "Who could take part.",
    "7": "How possible participants were found.",
    "8": "Where and when they were enrolled.",
    "9": "Whether they form a consecutive, random or convenience series.",
    "10a": "The rapid test in enough detail to repeat it.",
    "10b": "The reference in enough detail to repeat it.",
    "11": "Why this reference was chosen.",
    "12a": "What counts as a positive rapid test, and whether it was fixed beforehand.",
    "12b": "What counts as a positive reference, and whether it was fixed beforehand.",
    "13a": "Whether those who read the rapid test knew the reference result.",
    "13b": "Whether those who ran the reference knew the rapid result.",
    "14": "How the measures were estimated and compared.",
    "15": "How indeterminate and invalid results were handled.",
    "16": "How missing results were handled.",
    "17": "Analyses of variation between groups, and which were planned.",
    "18": "The intended number of participants and how it was found.",
    "19": "The flow of participants as a diagram.",
    "20": "Who the participants were.",
    "21a": "How severe the condition was in those who have it.",
    "21b": "What other conditions those without it have.",
    "22": "The time, and any treatment, between the two tests.",
    "23": "The rapid results by the reference results, as a table of counts.",
    "24": "The estimates with their precision.",
    "25": "Harm done by either test.",
    "26": "Limits of the study: bias, uncertainty, and where it may be applied.",
    "27": "What the results mean for practice.",
    "28": "The registration number and register.",
    "29": "Where the protocol can be read.",
    "30": "Sources of funding and support, and the funders' part.",
  },
  remarks: {
    title: "the title is the study file's own",
    summary: "the figures stand in the answer; the authors write the text",
    role: "the intended use as the instructions state it; the authors say what the test is for here",
    criteria: "the criteria and their dates; the authors state the aims",
    planned: "the dates of criteria and of results are shown; the authors confirm the order",
    eligibility: "exclusions are counted by reason; the authors state the rules",
    faintRule: "the rule of the kit file, fixed before the records are read",
    assays: "assays and their order; makers and cut-offs are the authors' to state",
    referenceRecorded: "the title of the reference; its single steps were recorded as a final status only",
    referenceErrors:
      "what is believed of its errors, and what they would change; the authors say why it was chosen",
    unverified: "what people without a reference could change; the flow counts them",
    blindingFlags: "what the blinding flags of the records show",
    blindingUnknown: "the records do not say who knew what",
    margins: "the criteria and margins with their dates; the authors state the aims",
    assurance:
      "the numbers reached, and what more people would settle; the authors say how they were planned",
    cutoffChosen: "the cutoff was chosen on these people; what that flatters by stands beside it",
    pooled:
      "and across sites or groups as a sample of such; readers and times of reading in sections of their own",
    readers: "readers, operators and time of reading are compared in sections of their own",
    sampleSize: "the numbers reached are here; the authors say how they were planned",
    baseline: "sites, selection and groups; the authors add what else describes the people",
    noReasons: "the records give no people who left",
    interval: "dates are in the records; treatment between the tests is the authors' to state",
    alarms: "the threats that the records show; the authors weigh them",
    registration: "no registration is stated in the study file",
    protocolVersion: "the protocol's version is stated; the authors say where it can be read",
    funding: "no funding is stated in the study file",
    noSites: "the study file names no sites or dates",
    noGroups: "the study file names no groups",
    nothing: "",
  },
} as const;

export type ChecklistItem = keyof typeof checklist.items;
export type ChecklistRemark = keyof typeof checklist.remarks;
