using Portwitness.Service.Validation;

namespace Portwitness.Service.Access;

/// <summary>Marks a call that follows what is being recorded: its client may send nothing for <see cref="ServiceLimits.WatchPatience"/>.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class WatchedWhileRecordedAttribute : Attribute;
