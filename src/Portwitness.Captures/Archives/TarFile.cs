namespace Portwitness.Captures.Archives;

/// <summary>A file of a tar archive.</summary>
/// <param name="Entry">Which entry it is, counted from 1.</param>
/// <param name="Name">Its path, as stored.</param>
/// <param name="Content">Its bytes.</param>
/// <param name="IsCut">Whether there was no room for all of them.</param>
internal sealed record TarFile(long Entry, byte[] Name, byte[] Content, bool IsCut);
