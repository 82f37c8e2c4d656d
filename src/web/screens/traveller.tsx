import type { Desk } from "../state/desk.ts";

export function TravellerSheet(props: { readonly desk: Desk }) {
  return (
    <main>
      <h1>{props.desk.job()?.title}</h1>
    </main>
  );
}
