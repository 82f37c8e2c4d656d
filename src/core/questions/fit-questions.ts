/** Every question about whether a part goes where it is to go, in the order in which a person would ask them. */
import type { Instrument } from "../job/index.ts";
import { balanceQuestions } from "./balance.ts";
import { controlQuestions } from "./controls.ts";
import { fastenerQuestions } from "./fasteners.ts";
import { answered } from "./judge.ts";
import { leverQuestions } from "./lever.ts";
import type { InstrumentQuestion } from "./make-verdict.ts";
import { nutQuestions } from "./nut.ts";
import { pickupQuestions } from "./pickups.ts";
import { strapBatteryQuestions } from "./strap-battery.ts";
import { tunerQuestions } from "./tuners.ts";

export function fitQuestions(instrument: Instrument): readonly InstrumentQuestion[] {
  const questions = [
    ...pickupQuestions(instrument),
    ...controlQuestions(instrument),
    ...leverQuestions(instrument),
    ...tunerQuestions(instrument),
    ...nutQuestions(instrument),
    ...fastenerQuestions(instrument),
    ...strapBatteryQuestions(instrument),
    ...balanceQuestions(instrument),
  ];
  return questions.map(answered);
}
