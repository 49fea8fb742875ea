import { sql, type Kysely } from 'kysely';

/**
 * Everything carries, beside the instant it is for, the instant it was known; a revision is a row of its own; doubts are
 * codes. `known_s` is whole seconds after the instant (of a forecast, after its issue), which takes two bytes where an
 * instant takes six. `known_how`: null for a retrieval, 1 where nobody noted it and the value's own instant is taken, 2
 * for what came long after its instant, as archives do.
 *
 * Old values count as known at the first successful retrieval of their source after them, as far as the log reaches back;
 * older ones at their own instant, marked.
 */
export async function known(db: Kysely<unknown>): Promise<void> {
  for (const statement of STATEMENTS) await sql.raw(statement).execute(db);
}

/** Instant of the first retrieval that could have brought a row of a series; null outside of the log. */
const firstRetrieval = (instant: string): string => `(
  select min(r.at_ms) from retrieval r
  where r.lake = s.lake and r.source = s.source and r.ok = 1 and r.at_ms >= ${instant}
    and ${instant} >= (select min(q.at_ms) from retrieval q where q.lake = s.lake)
)`;

const STATEMENTS = [
  `create table observation_known (
    series_id integer not null references series(id) on delete cascade,
    at_ms bigint not null,
    known_s integer not null,
    value double precision not null,
    provisional integer,
    qualifiers text,
    doubt text,
    known_how integer,
    primary key (series_id, at_ms, known_s)
  ) without rowid`,
  `insert into observation_known
    select series_id, at_ms, coalesce((first_ms - at_ms) / 1000, 0), value, provisional, qualifiers, doubt,
      case when first_ms is null then 1 end
    from (
      select o.*, ${firstRetrieval('o.at_ms')} as first_ms
      from observation o join series s on s.id = o.series_id
    )`,
  `drop table observation`,
  `alter table observation_known rename to observation`,
  `update observation set doubt = case
      when doubt like 'datum jump%' then '{"code":"doubt.datumJump","stepM":null}'
      when doubt like 'spike %' then '{"code":"doubt.spike"}'
      when doubt like 'sudden step%' then '{"code":"doubt.unconfirmed"}'
      when doubt like 'duplicate day%' then '{"code":"doubt.duplicateDay"}'
      when doubt like 'two depths%' then '{"code":"doubt.twoDepths"}'
      when doubt = 'out of the water: follows the air' then '{"code":"doubt.tracksAir"}'
      else json_object('code', 'doubt.stated', 'text', doubt)
    end
    where doubt is not null`,
  `create table forecast_known (
    series_id integer not null references series(id) on delete cascade,
    issued_ms bigint not null,
    at_ms bigint not null,
    known_s integer not null,
    value double precision not null,
    primary key (series_id, issued_ms, at_ms, known_s)
  ) without rowid`,
  `insert into forecast_known
    select f.series_id, f.issued_ms, f.at_ms, coalesce((i.first_ms - f.issued_ms) / 1000, 0), f.value
    from forecast f join (
      select series_id, issued_ms, ${firstRetrieval('issued_ms')} as first_ms
      from (select distinct series_id, issued_ms from forecast) join series s on s.id = series_id
    ) i on i.series_id = f.series_id and i.issued_ms = f.issued_ms`,
  `drop table forecast`,
  `alter table forecast_known rename to forecast`,
  `create table reading_known (
    id text not null,
    known_ms bigint not null,
    lake text not null,
    at_ms bigint not null,
    water_c double precision,
    clarity_m double precision,
    depth_m double precision not null,
    sd_c double precision not null,
    place text not null,
    pocket text,
    known_how integer,
    primary key (id, known_ms)
  )`,
  `insert into reading_known
    select id, at_ms, lake, at_ms, water_c, clarity_m, depth_m, sd_c, place, pocket, 1 from reading`,
  `drop table reading`,
  `alter table reading_known rename to reading`,
  `create index reading_by_time on reading(lake, at_ms)`,
  `create table alert_known (
    lake text not null,
    id text not null,
    first_seen_ms bigint not null,
    last_seen_ms bigint not null,
    issuer text not null,
    event text not null,
    severity text not null,
    headline text not null,
    description text not null,
    instruction text not null,
    onset_ms bigint,
    ends_ms bigint,
    expires_ms bigint,
    url text,
    primary key (lake, id, first_seen_ms)
  )`,
  `insert into alert_known select lake, id, first_seen_ms, last_seen_ms, issuer, event, severity, headline, description,
    instruction, onset_ms, ends_ms, expires_ms, url from alert`,
  `drop table alert`,
  `alter table alert_known rename to alert`,
  `create index alert_by_time on alert(lake, last_seen_ms)`,
  `create table flood_known (
    lake text not null,
    station text not null,
    at_ms bigint not null,
    known_ms bigint not null,
    observed text not null,
    forecast text not null,
    thresholds_m text not null,
    primary key (lake, station, at_ms, known_ms)
  ) without rowid`,
  `insert into flood_known select lake, station, at_ms, at_ms, observed, forecast, thresholds_m from flood`,
  `drop table flood`,
  `alter table flood_known rename to flood`,
];
