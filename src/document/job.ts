import { z } from 'zod';

/** What the office calls a project, and how the enquiry goes on. */

const text = (most: number) => z.string().max(most);
/** ISO 8601 calendar dates (`2027-03-15`); empty while there is none. */
const date = z.union([z.literal(''), z.iso.date()]);

export const jobStates = ['enquiry', 'traced', 'fitted', 'issued', 'ordered', 'lost'] as const;
export type JobState = (typeof jobStates)[number];

/** A later part of the tender pack: its number or title, and when it came. */
export const addendumSchema = z
  .strictObject({ title: text(120).min(1), receivedOn: date, note: text(1000) })
  .readonly();

/** A question put to the architect or the client; `answer` is empty while it is open. */
export const questionSchema = z
  .strictObject({ question: text(1000).min(1), askedOn: date, answer: text(2000), answeredOn: date })
  .readonly();

const addenda = z.array(addendumSchema).max(200).readonly();
const questions = z.array(questionSchema).max(500).readonly();

const particulars = {
  name: text(200).min(1),
  number: text(60),
  client: text(200),
  site: text(300),
  tenderDate: date,
  state: z.enum(jobStates),
};

export const jobSchema = z
  .strictObject({
    ...particulars,
    // Projects stored before the office kept these have none of them.
    addenda: addenda.default([]),
    questions: questions.default([]),
    /** Until when the project is to be kept; empty: for good. */
    retainUntil: date.default(''),
  })
  .readonly();

/** Changes of some particulars. Without defaults, which would clear what a change leaves out. */
export const jobChangesSchema = z
  .strictObject({ ...particulars, addenda, questions, retainUntil: date })
  .partial();

export type Job = z.infer<typeof jobSchema>;
export type Addendum = z.infer<typeof addendumSchema>;
export type Question = z.infer<typeof questionSchema>;
