import type { Desk } from "../state/desk.ts";

export function MarkingOut(props: { readonly desk: Desk }) {
  return (
    <main>
      <h1>{props.desk.job()?.title}</h1>
    </main>
  );
}
