declare module "*?gzip" {
  /** An address that holds the file's bytes as gzip. */
  const address: string;
  export default address;
}
