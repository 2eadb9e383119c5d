namespace Portwitness.Service.Doors;

/// <summary>A door that cannot be made as it was asked for; the message says which file, and what to do. It holds no secret.</summary>
public sealed class DoorException(string message, Exception? inner = null) : Exception(message, inner);
