namespace Portwitness.Queue;

/// <summary>A queue that cannot be reached or used. The message names place and remedy, and holds no secret.</summary>
public sealed class QueueException(string message, Exception? inner = null) : Exception(message, inner);
