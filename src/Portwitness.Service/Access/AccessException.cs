namespace Portwitness.Service.Access;

/// <summary>Access that cannot be set up as it was asked for; the message says which file, and what to do. It holds no secret.</summary>
public sealed class AccessException(string message, Exception? inner = null) : Exception(message, inner);
