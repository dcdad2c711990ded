import * as v from "valibot";
import { expectedDiscordance } from "../../methods/algorithms/expected-discordance.ts";
import { algorithmsFrontier } from "../../methods/algorithms/frontier.ts";
import { observedDependence } from "../../methods/algorithms/observed-dependence.ts";
import { algorithmsOutcomes } from "../../methods/algorithms/outcomes.ts";
import { stock } from "../../methods/algorithms/stock.ts";
import { algorithmsTornado } from "../../methods/algorithms/tornado.ts";
import { twoTests } from "../../methods/algorithms/two-tests.ts";
import { algorithmsUncertain } from "../../methods/algorithms/uncertain.ts";
import { AlgorithmFileSchema } from "../../records/algorithm/algorithm-schema.ts";
import { Asked } from "../plan/asked.ts";
import { Count, Notes, Real, Share } from "../schema/parts.ts";
import {
  AlgorithmId,
  AnalyteId,
  AnswerSchema,
  ChannelId,
  FlowSchema,
  FollowedSchema,
  KitId,
  PredictiveSchema,
  SweepSchema,
  TogetherSchema,
  TwoWaySchema,
} from "./document-parts.ts";

/**
 * The algorithms document: everything that is said of a file of algorithms, as plain data in full precision. Same
 * file, same bytes: fixed key order, no time stamp, no path of a machine.
 */
const OutcomeSchema = v.strictObject({
  channel: ChannelId,
  algorithm: AlgorithmId,
  flow: FlowSchema,
  outcome: v.pipe(Asked(algorithmsOutcomes), v.description("at the channel's prevalence")),
});

const StockSchema = v.strictObject({
  channel: v.pipe(v.nullable(ChannelId), v.description("null: all channels together")),
  kit: KitId,
  clients: Count,
  order: Asked(stock),
  money: v.pipe(Real, v.description("price of the packs to order")),
  notes: Notes,
});

const SOURCES = ["independent", "stated", "estimated", "repeat", "others", "shared"] as const;
const PairSchema = v.strictObject({
  analyte: AnalyteId,
  first: KitId,
  second: v.pipe(KitId, v.description("the same kit: a repeat of it")),
  source: v.pipe(v.picklist(SOURCES), v.description("where the file has the correlation from")),
  diseased: v.pipe(v.number(), v.description("error correlation used, among the truly positive")),
  nondiseased: v.pipe(v.number(), v.description("error correlation used, among the truly negative")),
  estimated: v.pipe(
    v.nullable(Asked(observedDependence)),
    v.description("from both kits on the same people; null: not from counts"),
  ),
  table: v.pipe(
    Asked(twoTests),
    v.description(
      "both kits at their centre, with what their accuracies allow; at the channels' prevalences",
    ),
  ),
  notes: Notes,
});

const DependenceSchema = v.strictObject({
  kind: v.pipe(
    v.picklist(["none", "independent", "pairs", "shared"]),
    v.description("none: nobody is tested twice"),
  ),
  pairs: v.array(PairSchema),
  sweeps: v.array(SweepSchema),
  twoWay: v.array(TwoWaySchema),
});

export const AlgorithmsSchema = v.strictObject({
  format: v.literal("fourfold-algorithms"),
  version: v.literal(1),
  software: v.pipe(v.string(), v.description("version of Fourfold that made this document")),
  provenance: v.strictObject({
    inputs: v.array(v.strictObject({ name: v.string(), bytes: Count, sha256: v.string() })),
    fileSha256: v.pipe(v.string(), v.description("hash of the algorithm file and its name")),
    methods: v.array(v.strictObject({ id: v.string(), version: Count })),
  }),
  file: AlgorithmFileSchema,
  answer: AnswerSchema,
  algorithms: v.array(FollowedSchema),
  outcomes: v.array(OutcomeSchema),
  predictive: v.array(PredictiveSchema),
  dependence: DependenceSchema,
  uncertainty: v.array(
    v.strictObject({
      analyte: AnalyteId,
      channels: v.pipe(
        v.array(ChannelId),
        v.description("the prevalences drawn, in their order; other channels have another share returning"),
      ),
      drawn: Asked(algorithmsUncertain),
    }),
  ),
  tornado: v.pipe(
    v.array(v.strictObject({ channel: ChannelId, algorithm: AlgorithmId, moved: Asked(algorithmsTornado) })),
    v.description(
      "what an outcome hangs on: the PPV of the main algorithms, in the first channel of the others too, and their cost",
    ),
  ),
  frontier: v.array(
    v.strictObject({
      analyte: AnalyteId,
      search: v.pipe(
        v.nullable(Asked(algorithmsFrontier)),
        v.description("at prevalences that include the channels'; null: the targets leave no algorithm"),
      ),
      channels: v.array(
        v.strictObject({
          channel: ChannelId,
          prevalence: Share,
          best: v.pipe(v.nullable(v.string()), v.description("id among the algorithms searched")),
          chance: v.pipe(Real, v.description("probability that this one is the best there")),
        }),
      ),
      notes: Notes,
    }),
  ),
  stock: v.array(StockSchema),
  observed: v.array(
    v.strictObject({
      channel: ChannelId,
      algorithm: AlgorithmId,
      first: KitId,
      second: KitId,
      discordance: Asked(expectedDiscordance),
    }),
  ),
  together: v.nullable(TogetherSchema),
  notes: Notes,
});

export type Algorithms = v.InferOutput<typeof AlgorithmsSchema>;
export type AlgorithmsAnswer = Algorithms["answer"];
export type AlgorithmLine = AlgorithmsAnswer["lines"][number];
export type BestAlgorithm = AlgorithmsAnswer["best"][number];
export type FollowedAlgorithm = Algorithms["algorithms"][number];
export type AlgorithmOutcome = Algorithms["outcomes"][number];
export type KitStock = Algorithms["stock"][number];
export type ObservedDiscordance = Algorithms["observed"][number];
export type AlgorithmSearch = Algorithms["frontier"][number];
export type OutcomeTornado = Algorithms["tornado"][number];
export type DrawnUncertainty = Algorithms["uncertainty"][number];
export type AlgorithmFlow = AlgorithmOutcome["flow"];
export type AlgorithmPredictive = Algorithms["predictive"][number];
export type AlgorithmDependence = Algorithms["dependence"];
export type DependentPair = AlgorithmDependence["pairs"][number];
export type DependenceSweep = AlgorithmDependence["sweeps"][number];
export type TwoWayMap = AlgorithmDependence["twoWay"][number];
export type TwoAnalytes = NonNullable<Algorithms["together"]>;
