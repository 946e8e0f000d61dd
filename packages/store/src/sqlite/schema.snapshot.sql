CREATE TABLE entry ( sequence integer primary key autoincrement, id text not null unique, job text not null, text text not null ) strict;
CREATE INDEX entry_of_job on entry (job, sequence);
CREATE TABLE migration (number integer primary key, name text not null) strict;
CREATE TABLE photo (hash text primary key, media text not null, bytes blob not null) strict;
CREATE TABLE sheet (hash text primary key, text text not null) strict;
