namespace Portwitness.History;

/// <summary>A store that cannot be opened, written or read. The message names place and remedy, and holds no secret.</summary>
public sealed class StoreException : Exception
{
    /// <summary>Makes one.</summary>
    public StoreException(string message, bool isUnreachable, Exception? inner = null)
        : base(message, inner) => IsUnreachable = isUnreachable;

    /// <summary>A server could not be reached; it may be there later.</summary>
    public bool IsUnreachable { get; }

    /// <summary>The store answers, but what it has under this key cannot be read; asking again does not help.</summary>
    public bool IsDamaged { get; init; }
}
