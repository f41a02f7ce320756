import { asked, type Answer, type Schemas } from "./api";
import { client } from "./client";

export type People = Schemas["People"];
export type PersonHere = Schemas["Person"];
export type DeviceHere = Schemas["Device"];
export type Touched = Schemas["Touched"];
export type HeldEntry = Schemas["Held"];
export type Role = PersonHere["role"];

export const listPeople = (): Promise<Answer<People>> => asked(client.GET("/api/people"));
export const addPerson = (name: string, role: Role, pin: string): Promise<Answer<People>> =>
  asked(client.POST("/api/people", { body: { name, role, pin } }));
export const setRole = (name: string, role: Role): Promise<Answer<People>> =>
  asked(client.PUT("/api/people/{name}/role", { params: { path: { name } }, body: { role } }));
export const givePin = (name: string, pin: string): Promise<Answer<People>> =>
  asked(client.PUT("/api/people/{name}/pin", { params: { path: { name } }, body: { pin } }));
export const clearTries = (name: string): Promise<Answer<People>> =>
  asked(client.DELETE("/api/people/{name}/tries", { params: { path: { name } } }));
export const letPersonGo = (name: string): Promise<Answer<People>> =>
  asked(client.DELETE("/api/people/{name}", { params: { path: { name } } }));

export const listDevices = (): Promise<Answer<DeviceHere[]>> => asked(client.GET("/api/devices"));
export const listTouched = (device: string): Promise<Answer<Touched[]>> =>
  asked(client.GET("/api/devices/{device}/touched", { params: { path: { device } } }));
export const walkedWhatItTouched = (device: string, job: string): Promise<Answer<Touched[]>> =>
  asked(client.POST("/api/devices/{device}/walked", { params: { path: { device } }, body: { job } }));
export const endDevice = (device: string, lost: boolean): Promise<Answer<DeviceHere[]>> =>
  asked(client.POST("/api/devices/{device}/end", { params: { path: { device } }, body: { lost } }));
export const letDeviceBack = (device: string): Promise<Answer<DeviceHere[]>> =>
  asked(client.POST("/api/devices/{device}/back", { params: { path: { device } } }));

export type WaysIn = Schemas["WaysIn"];
export const getWaysIn = (): Promise<Answer<WaysIn>> => asked(client.GET("/api/ways-in"));

export const listHeld = (): Promise<Answer<HeldEntry[]>> => asked(client.GET("/api/held"));
export const letHeldIn = (entry: string): Promise<Answer<HeldEntry[]>> =>
  asked(client.POST("/api/held/{entry}/in", { params: { path: { entry } } }));
export const discardHeld = (entry: string, reason: string): Promise<Answer<HeldEntry[]>> =>
  asked(client.POST("/api/held/{entry}/discard", { params: { path: { entry } }, body: { reason } }));
